using System.Globalization;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime.Text;

namespace Glowcast.Field.Exports;

/// <summary>A season as a table of values parted by commas (RFC 4180): a header, then a line for each day, ranked.</summary>
/// <remarks>A day's window is the one its score is of; the fields of a day without one are empty. Instants are UTC to the second,
/// local times as they stand on the clock of the lookout; shares and the parts of a score lie between 0 and 1.</remarks>
public static class SeasonCsv
{
    private static readonly SeasonAspect[] Aspects = Enum.GetValues<SeasonAspect>();

    private static readonly IReadOnlyList<string> Header =
    [
        "rank", "plan", "date", "weekday", "score", "startUtc", "endUtc", "startLocal", "lengthS", "half", "litShare", "valleyShare", "sunAltitudeDeg", "lightDirection",
        "ridgeShadow", "blackPointStops", "cctK", "moonAgeDays", "moonLitShare", "moonAltitudeDeg", "moonInSpan", "fit", "chance", "roomS", "isClose", "windows", .. Aspects.Select(NameOf), "reasons",
    ];

    private static readonly LocalDateTimePattern Local = LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm");

    private static readonly InstantPattern Utc = InstantPattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:ss'Z'");

    public static void Write(TextWriter writer, IEnumerable<RankedDay> days)
    {
        ArgumentNullException.ThrowIfNull(writer);
        ArgumentNullException.ThrowIfNull(days);
        foreach (var line in days.Select(LineOf).Prepend(Header)) writer.Write(string.Join(',', line.Select(Field)) + "\r\n");
    }

    private static IReadOnlyList<string> LineOf(RankedDay ranked)
    {
        var day = ranked.Day;
        return
        [
            Number(ranked.Rank, "0"), ranked.Site.Name, LocalDatePattern.Iso.Format(day.Date), $"{day.Date.DayOfWeek}", Number(day.Points, "0.000"),
            .. WindowOf(day.Best), Number(day.Windows.Count, "0"),
            .. Aspects.Select(aspect => Number(day.Score?.Parts.FirstOrDefault(part => part.Aspect == aspect)?.Value, "0.000")),
            string.Join(' ', day.Reasons),
        ];
    }

    private static IReadOnlyList<string> WindowOf(SeasonWindow? window) => window is null
        ? [.. Enumerable.Repeat("", Header.Count - Aspects.Length - 7)]
        :
        [
            Utc.Format(Rounded.ToSeconds(window.Time.Start)), Utc.Format(Rounded.ToSeconds(window.Time.End)), Local.Format(Rounded.ToMinutes(window.Begins)), Number(window.Time.Duration.TotalSeconds, "0"),
            $"{window.Half}", Number(window.RidgeShare, "0.000"), Number(window.ValleyShare, "0.000"), Number(window.SunAltitudeDeg, "0.00"), $"{window.Direction}",
            Number(window.Relief?.Shadow, "0.000"), Number(window.BlackPoint?.Stops, "0.00"), Number(window.BeamColour?.Correlated()?.Kelvin, "0"),
            Number(window.Moon.AgeDays, "0.0"), Number(window.Moon.LitShare, "0.000"), Number(window.Moon.AltitudeDeg, "0.0"), window.Moon.InSpan ? "true" : "false",
            $"{window.Fit?.Verdict}", Number(window.Fit?.Chance, "0.000"), Number(window.Fit?.Room.TotalSeconds, "0"), window.Fit is { } fit ? fit.IsClose ? "true" : "false" : "",
        ];

    private static string NameOf(SeasonAspect aspect) => $"score{aspect}";

    private static string Number(double? value, string format) => value?.ToString(format, CultureInfo.InvariantCulture) ?? "";

    private static string Field(string text) => text.AsSpan().IndexOfAny(",\"\r\n") < 0 ? text : $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
}
