namespace Glowcast.Server.Problems;

internal static class ProblemServices
{
    public static void AddProblems(this IServiceCollection services)
    {
        services.AddProblemDetails(problems => problems.CustomizeProblemDetails = context => context.ProblemDetails.Extensions.Remove("traceId"));
        services.AddExceptionHandler<FaultsAsProblems>();
    }
}
