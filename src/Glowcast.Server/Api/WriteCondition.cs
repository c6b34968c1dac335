using Microsoft.AspNetCore.Http.Headers;
using Microsoft.Net.Http.Headers;

namespace Glowcast.Server.Api;

/// <summary>On what condition a client wants to write: RFC 9110, section 13.1.</summary>
internal sealed class WriteCondition(IHeaderDictionary headers)
{
    private readonly RequestHeaders conditions = new(headers);

    /// <param name="present">The tag of what is there now; null for nothing.</param>
    public bool Allows(EntityTagHeaderValue? present) =>
        (conditions.IfMatch is not { Count: > 0 } wanted || (present is not null && wanted.Any(tag => Names(tag, present))))
        && (conditions.IfNoneMatch is not { Count: > 0 } unwanted || present is null || !unwanted.Any(tag => Names(tag, present)));

    private static bool Names(EntityTagHeaderValue tag, EntityTagHeaderValue present) => tag.Equals(EntityTagHeaderValue.Any) || tag.Compare(present, useStrongComparison: true);
}
