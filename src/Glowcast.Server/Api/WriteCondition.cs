using Glowcast.Engine.Measures;
using Microsoft.Extensions.Primitives;
using Microsoft.Net.Http.Headers;

namespace Glowcast.Server.Api;

/// <summary>On what condition a client wants to write or delete: RFC 9110, section 13.1.</summary>
internal sealed class WriteCondition
{
    private readonly IList<EntityTagHeaderValue> wanted;
    private readonly IList<EntityTagHeaderValue> unwanted;

    /// <exception cref="BadInputException">A condition that cannot be read; to pass over it could undo what another has written.</exception>
    public WriteCondition(IHeaderDictionary headers)
    {
        var faults = new Faults();
        (wanted, unwanted) = (Read(headers.IfMatch, HeaderNames.IfMatch, faults), Read(headers.IfNoneMatch, HeaderNames.IfNoneMatch, faults));
        faults.ThrowIfAny();
    }

    /// <param name="present">The tag of what is there now; null for nothing.</param>
    public bool Allows(EntityTagHeaderValue? present) =>
        (wanted.Count == 0 || (present is not null && wanted.Any(tag => Names(tag, present)))) && (present is null || !unwanted.Any(tag => Names(tag, present)));

    /// <summary>The answer where it does not.</summary>
    /// <param name="what">Such as "plan 'saddle'".</param>
    public static IResult Refused(string what) =>
        TypedResults.Problem($"The {what} is not as you last saw it; get it again.", statusCode: StatusCodes.Status412PreconditionFailed);

    private static IList<EntityTagHeaderValue> Read(StringValues header, string name, Faults faults)
    {
        if (header.Count == 0) return [];
        // The library runs beyond the end of a tag that breaks off before blanks, and takes a star among tags.
        if (EntityTagHeaderValue.TryParseStrictList([.. header.OfType<string>().Select(text => text.TrimEnd())], out var tags) && tags.Count > 0 && (tags.Count == 1 || !tags.Contains(EntityTagHeaderValue.Any))) return tags;
        faults.Add(name, $"Must be an entity tag in quotes as an answer's ETag gave it, several with commas between, or *; got '{Shortened.To80(header.ToString())}'.");
        return [];
    }

    private static bool Names(EntityTagHeaderValue tag, EntityTagHeaderValue present) => tag.Equals(EntityTagHeaderValue.Any) || tag.Compare(present, useStrongComparison: true);
}
