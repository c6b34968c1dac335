using Glowcast.Engine.Measures;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Mvc;

namespace Glowcast.Server.Problems;

/// <summary>Tells clients what is wrong by RFC 9457: bad input as status 400 with all faults under the field they belong to.</summary>
/// <remarks>What is neither bad input nor a bad request is our own fault: status 500, and nothing of its inside.</remarks>
internal sealed class FaultsAsProblems(IProblemDetailsService problems) : IExceptionHandler
{
    public async ValueTask<bool> TryHandleAsync(HttpContext httpContext, Exception exception, CancellationToken cancellationToken)
    {
        var problem = ProblemOf(exception);
        if (problem is null) return false;
        if (exception is TooBusyException) httpContext.Response.Headers.RetryAfter = TooBusyException.RetryAfterS;
        httpContext.Response.StatusCode = problem.Status!.Value;
        await problems.TryWriteAsync(new ProblemDetailsContext { HttpContext = httpContext, ProblemDetails = problem });
        return true;
    }

    /// <summary>What to say of a fault of ours.</summary>
    public static ProblemDetails Ours { get; } = new() { Status = StatusCodes.Status500InternalServerError, Title = "An error occurred while processing your request." };

    /// <summary>Null where the fault is ours.</summary>
    public static ProblemDetails? ProblemOf(Exception exception) => exception switch
    {
        BadInputException bad => Of(bad, StatusCodes.Status400BadRequest),
        BadHttpRequestException refused => new ProblemDetails { Status = refused.StatusCode, Detail = refused.Message },
        TooMuchException tooMuch => new ProblemDetails { Status = StatusCodes.Status422UnprocessableEntity, Detail = tooMuch.Message },
        TooBusyException tooBusy => new ProblemDetails { Status = StatusCodes.Status429TooManyRequests, Detail = tooBusy.Message },
        // So the server below says that a piece of a body claims to be longer than any can be (RFC 9112, section 7.1).
        IOException { InnerException: OverflowException } => new ProblemDetails { Status = StatusCodes.Status400BadRequest, Detail = "The body's pieces are not of the lengths they claim to be; send it again, best in one piece." },
        _ when FullDisk.Is(exception) => new ProblemDetails { Status = StatusCodes.Status507InsufficientStorage, Detail = FullDisk.Message },
        _ => null,
    };

    /// <summary>Bad input that is more than a badly written request.</summary>
    public static IResult Result(BadInputException bad, int status) => TypedResults.Problem(Of(bad, status));

    private static HttpValidationProblemDetails Of(BadInputException bad, int status)
    {
        var messages = bad.Faults.GroupBy(fault => fault.Field).ToDictionary(field => field.Key, field => field.Select(fault => fault.Message).ToArray());
        return new HttpValidationProblemDetails(messages)
        {
            Status = status,
            Title = messages.Count == 1 ? "One field is wrong." : $"{messages.Count} fields are wrong.",
        };
    }
}
