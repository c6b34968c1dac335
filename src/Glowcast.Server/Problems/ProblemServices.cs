namespace Glowcast.Server.Problems;

internal static class ProblemServices
{
    public static void AddProblems(this IServiceCollection services)
    {
        services.AddProblemDetails(problems => problems.CustomizeProblemDetails = context =>
        {
            context.ProblemDetails.Extensions.Remove("traceId");
            context.ProblemDetails.Detail ??= context.ProblemDetails is HttpValidationProblemDetails ? null : StatusWords.For(context.HttpContext, context.ProblemDetails.Status);
        });
        services.AddExceptionHandler<FaultsAsProblems>();
    }
}
