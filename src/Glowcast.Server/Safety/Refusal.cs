using Microsoft.AspNetCore.Mvc;

namespace Glowcast.Server.Safety;

/// <summary>A request that is turned away before anything looks at it.</summary>
internal static class Refusal
{
    public static async Task WriteAsync(HttpContext context, int status, string why)
    {
        context.Response.StatusCode = status;
        await context.RequestServices.GetRequiredService<IProblemDetailsService>().TryWriteAsync(
            new ProblemDetailsContext { HttpContext = context, ProblemDetails = new ProblemDetails { Status = status, Detail = why } });
    }
}
