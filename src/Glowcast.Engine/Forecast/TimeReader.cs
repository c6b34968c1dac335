using Glowcast.Engine.Measures;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Engine.Forecast;

/// <summary>Dates, instants and time zones as users write them, in plans, on the command line and in addresses.</summary>
public static class TimeReader
{
    private const int FirstYear = 1950;
    private const int LastYear = 2100;

    private static readonly OffsetDateTimePattern[] WithOffset =
    [
        OffsetDateTimePattern.ExtendedIso,
        OffsetDateTimePattern.CreateWithInvariantCulture("uuuu'-'MM'-'dd'T'HH':'mmo<G>"),
    ];

    private static readonly LocalDateTimePattern[] WithoutOffset =
    [
        LocalDateTimePattern.ExtendedIso,
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu'-'MM'-'dd'T'HH':'mm"),
    ];

    /// <summary>A date.</summary>
    /// <exception cref="BadInputException">Not a date, or outside 1950 to 2100.</exception>
    public static LocalDate Date(string text, string field)
    {
        var parsed = LocalDatePattern.Iso.Parse(text);
        if (!parsed.Success) throw new BadInputException(field, $"Must be a date such as 2026-02-14; got '{Shortened.To80(text)}'.");
        if (parsed.Value.Year is < FirstYear or > LastYear) throw new BadInputException(field, $"Must lie from {FirstYear}-01-01 to {LastYear}-12-31; got {Shortened.To80(text)}.");
        return parsed.Value;
    }

    /// <summary>An instant in ISO 8601 with its offset from UTC.</summary>
    /// <exception cref="BadInputException">Not an instant, without an offset, or outside 1950 to 2100.</exception>
    public static Instant Moment(string text, string field)
    {
        const string right = "2026-02-14T11:45:00Z or 2026-02-14T06:45:00-05:00";
        var parsed = WithOffset.Select(pattern => pattern.Parse(text)).FirstOrDefault(result => result.Success);
        if (parsed is null)
        {
            throw new BadInputException(field, WithoutOffset.Any(pattern => pattern.Parse(text).Success)
                ? $"Must say how far its clock is from UTC: add Z, or an offset such as -05:00, as in {right}; got '{Shortened.To80(text)}'."
                : $"Must be an instant such as {right}; got '{Shortened.To80(text)}'.");
        }
        var instant = parsed.Value.ToInstant();
        return instant.InUtc().Year is >= FirstYear and <= LastYear
            ? instant
            : throw new BadInputException(field, $"Must lie in the years {FirstYear} to {LastYear}; got '{Shortened.To80(text)}'.");
    }

    /// <exception cref="BadInputException">No time zone of that name.</exception>
    public static DateTimeZone Zone(string name, string field) => DateTimeZoneProviders.Tzdb.GetZoneOrNull(name)
        ?? throw new BadInputException(field, $"Must be a time zone of the tz database such as Europe/Zurich or UTC; got '{Shortened.To80(name)}'.");
}
