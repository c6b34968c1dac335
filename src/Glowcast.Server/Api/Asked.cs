using Glowcast.Engine.Measures;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Server.Api;

/// <summary>Values as they are written in an address.</summary>
internal static class Asked
{
    private const int FirstYear = 1950;
    private const int LastYear = 2100;
    private const string Right = "2026-02-14T11:45:00Z or 2026-02-14T06:45:00-05:00";

    private static readonly OffsetDateTimePattern[] Patterns =
        [OffsetDateTimePattern.ExtendedIso, OffsetDateTimePattern.CreateWithInvariantCulture("uuuu'-'MM'-'dd'T'HH':'mmo<G>")];

    /// <summary>An instant in ISO 8601 with its offset from UTC.</summary>
    /// <exception cref="BadInputException">Not an instant, without an offset, or outside 1950 to 2100.</exception>
    public static Instant Moment(string text, string field)
    {
        // In an address a plus sign that nobody escaped arrives as a blank.
        var written = text.Replace(' ', '+');
        if (Patterns.Select(pattern => pattern.Parse(written)).FirstOrDefault(result => result.Success) is not { } parsed)
            throw new BadInputException(field, $"Must be an instant with Z or its offset from UTC, such as {Right}; got '{text}'.");
        var instant = parsed.Value.ToInstant();
        return instant.InUtc().Year is >= FirstYear and <= LastYear
            ? instant
            : throw new BadInputException(field, $"Must lie in the years {FirstYear} to {LastYear}; got '{text}'.");
    }
}
