using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Weather;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Server.Answers;

/// <summary>The days of a range, the best first.</summary>
/// <param name="Days">Ranked; days without a window come last, in order of time.</param>
public sealed record SeasonAnswer(string From, string To, string? TimeZone, IReadOnlyList<SeasonDayAnswer> Days)
{
    /// <summary>The sea of cloud that every day is given.</summary>
    public required DeckGivenAnswer Cloud { get; init; }

    public static SeasonAnswer Of(IReadOnlyList<SeasonDay> days, Plan plan)
    {
        ArgumentNullException.ThrowIfNull(days);
        ArgumentNullException.ThrowIfNull(plan);
        var zone = plan.Lookout!.Zone;
        return new SeasonAnswer(
            LocalDatePattern.Iso.Format(days[0].Date), LocalDatePattern.Iso.Format(days[^1].Date), zone?.Id,
            [.. days.OrderByDescending(day => day.Score).ThenBy(day => day.Date).Select((day, i) => SeasonDayAnswer.Of(day, i + 1, zone))])
        {
            Cloud = DeckGivenAnswer.Of(GivenDeck.Of(plan.Conditions), ProfileReach.Unknown, eyeHeight: null),
        };
    }
}

/// <summary>A day of a season.</summary>
/// <param name="Rank">1 is the best.</param>
/// <param name="Score">0 to 1.</param>
public sealed record SeasonDayAnswer(int Rank, string Date, double Score, IReadOnlyList<SeasonWindowAnswer> Windows, IReadOnlyList<string> Reasons)
{
    public static SeasonDayAnswer Of(SeasonDay day, int rank, DateTimeZone? zone)
    {
        ArgumentNullException.ThrowIfNull(day);
        return new SeasonDayAnswer(
            rank, LocalDatePattern.Iso.Format(day.Date), day.Score, [.. day.Windows.Select(window => SeasonWindowAnswer.Of(window, zone))], day.Reasons);
    }
}

/// <summary>A window, to a minute or two.</summary>
public sealed record SeasonWindowAnswer(
    string Start, string End, string? StartLocal, string? EndLocal, double LengthS, double LitShare, double? ValleyShare, double SunAltitudeDeg, double SunFromViewDeg)
{
    public static SeasonWindowAnswer Of(SeasonWindow window, DateTimeZone? zone)
    {
        ArgumentNullException.ThrowIfNull(window);
        return new SeasonWindowAnswer(
            Moments.Utc(window.Time.Start), Moments.Utc(window.Time.End), Moments.Local(window.Time.Start, zone), Moments.Local(window.Time.End, zone),
            window.Time.Duration.TotalSeconds, window.RidgeShare, window.ValleyShare, window.SunAltitudeDeg, window.SunFromViewDeg);
    }
}
