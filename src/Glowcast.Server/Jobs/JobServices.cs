namespace Glowcast.Server.Jobs;

internal static class JobServices
{
    public static void AddJobs(this IServiceCollection services)
    {
        services.AddSingleton<IJobKind, SeasonJob>();
        services.AddSingleton<IJobKind, GridJob>();
        services.AddSingleton<JobRunner>();
        services.AddHostedService(provider => provider.GetRequiredService<JobRunner>());
    }
}
