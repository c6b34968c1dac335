using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Weather;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Server.Answers;

/// <summary>The days of a range for one plan or several, the best first.</summary>
/// <param name="Days">Ranked together; days without a window come last, in order of time.</param>
/// <param name="Plans">What the names of the plans stand for.</param>
public sealed record SeasonAnswer(string From, string To, IReadOnlyList<SeasonPlanAnswer> Plans, IReadOnlyList<SeasonDayAnswer> Days)
{
    public static SeasonAnswer Of(IReadOnlyList<SiteSeason> seasons, LocalDate from, LocalDate to)
    {
        ArgumentNullException.ThrowIfNull(seasons);
        return new SeasonAnswer(
            LocalDatePattern.Iso.Format(from), LocalDatePattern.Iso.Format(to),
            [.. seasons.Select(SeasonPlanAnswer.Of)], [.. SeasonForecast.Ranked(seasons).Select(SeasonDayAnswer.Of)]);
    }
}

/// <summary>A plan of a season.</summary>
/// <param name="TimeZone">Of its local times; null where days are reckoned by the sun.</param>
/// <param name="Assumed">The thresholds of a window, the air, and what else its days rest on.</param>
/// <param name="Cloud">The sea of cloud that every day is given.</param>
public sealed record SeasonPlanAnswer(string Name, string? TimeZone, double FromDeg, double ToDeg, int DaysWithWindow, int DaysJudged, AssumedAnswer Assumed, DeckGivenAnswer Cloud)
{
    public static SeasonPlanAnswer Of(SiteSeason season)
    {
        ArgumentNullException.ThrowIfNull(season);
        var plan = season.Site.Plan;
        return new SeasonPlanAnswer(
            season.Site.Name, plan.Lookout?.Zone?.Id, plan.Span.From.Degrees, plan.Span.To.Degrees,
            season.Days.Count(day => day.Best is not null), season.Days.Count, AssumedAnswer.Of(plan),
            DeckGivenAnswer.Of(GivenDeck.Of(plan.Conditions), ProfileReach.Unknown, eyeHeight: null));
    }
}

/// <summary>A day of a season.</summary>
/// <param name="Rank">1 is the best.</param>
/// <param name="Plan">Name of the plan it belongs to.</param>
/// <param name="Score">0 to 1: the weighted mean of the parts, times the shortfall.</param>
/// <param name="Shortfall">The chance that the whole set has its light in the best window, 1 where none is planned; null without a window.</param>
/// <param name="Parts">Empty without a window.</param>
/// <param name="Best">The window that the score is of, counted from 0; null without one.</param>
public sealed record SeasonDayAnswer(
    int Rank, string Plan, string Date, IsoDayOfWeek Weekday, double Score, double? Shortfall, IReadOnlyList<ScorePartAnswer> Parts, int? Best,
    IReadOnlyList<SeasonWindowAnswer> Windows, IReadOnlyList<string> Reasons)
{
    /// <summary>The planned set in the best window, by the judge of forecasts; null without a window or a set.</summary>
    public DayFitAnswer? Fit { get; init; }

    public static SeasonDayAnswer Of(RankedDay ranked)
    {
        ArgumentNullException.ThrowIfNull(ranked);
        var (day, zone) = (ranked.Day, ranked.Site.Plan.Lookout?.Zone);
        return new SeasonDayAnswer(
            ranked.Rank, ranked.Site.Name, LocalDatePattern.Iso.Format(day.Date), day.Date.DayOfWeek, day.Points, day.Score?.Shortfall,
            [.. (day.Score?.Parts ?? []).Select(ScorePartAnswer.Of)], day.Best is { } best ? day.Windows.Index().First(entry => entry.Item == best).Index : null,
            [.. day.Windows.Select(window => SeasonWindowAnswer.Of(window, zone))], day.Reasons)
        {
            Fit = DayFitAnswer.Of(day.Best?.Fit),
        };
    }
}

/// <summary>The planned set in a window of a season.</summary>
/// <param name="Chance">That every exposure has its light.</param>
/// <param name="EarliestStart">Null where no start is possible.</param>
/// <param name="RoomS">From the first possible start to the last; negative by how much the set is too long.</param>
/// <param name="IsClose">Within what a season may be off by, the verdict could be another: ask a forecast.</param>
public sealed record DayFitAnswer(Verdict Verdict, double Chance, string? EarliestStart, string? LatestStart, double RoomS, bool IsClose)
{
    public static DayFitAnswer? Of(DayFit? fit) => fit is null ? null : new DayFitAnswer(
        fit.Verdict, Math.Round(fit.Chance, 4), Moments.Utc(fit.EarliestStart), Moments.Utc(fit.LatestStart), fit.Room.TotalSeconds, fit.IsClose);
}

/// <summary>One part of a score.</summary>
/// <param name="Value">0 to 1; null where there is nothing to judge.</param>
public sealed record ScorePartAnswer(SeasonAspect Aspect, double? Value, double Weight, string Reason)
{
    public static ScorePartAnswer Of(ScorePart part)
    {
        ArgumentNullException.ThrowIfNull(part);
        return new ScorePartAnswer(part.Aspect, part.Value is { } value ? Math.Round(value, 3) : null, part.Weight, part.Reason);
    }
}

/// <summary>A window, to a minute or two.</summary>
/// <param name="LitShare">Of the ridge's columns, the mean over the window.</param>
/// <param name="ValleyShare">Of the valley, the mean over the window; null where none is visible.</param>
/// <param name="SunAltitudeDeg">In its middle, apparent, at the lookout.</param>
/// <param name="RidgeShadow">Share of the ridge in its own or cast shadow, in the middle.</param>
/// <param name="BlackPointStops">Between lit ridge and shade at its distance, through the air, in the middle.</param>
/// <param name="CctK">Of the sun's beam on the crest; null where it is redder than 600 K, and where no crest is lit half-way.</param>
public sealed record SeasonWindowAnswer(
    string Start, string End, string? StartLocal, string? EndLocal, double LengthS, DayHalf Half, double LitShare, double? ValleyShare, double SunAltitudeDeg,
    double SunFromViewDeg, LightDirection LightDirection, double? RidgeShadow, double? BlackPointStops, double? CctK, SeasonMoonAnswer Moon)
{
    public static SeasonWindowAnswer Of(SeasonWindow window, DateTimeZone? zone)
    {
        ArgumentNullException.ThrowIfNull(window);
        return new SeasonWindowAnswer(
            Moments.Utc(window.Time.Start), Moments.Utc(window.Time.End), Moments.Local(window.Time.Start, zone), Moments.Local(window.Time.End, zone),
            window.Time.Duration.TotalSeconds, window.Half, window.RidgeShare, window.ValleyShare, window.SunAltitudeDeg, window.SunFromViewDeg,
            window.Direction, window.Relief?.Shadow, window.BlackPoint?.Stops, window.BeamColour?.Correlated()?.Kelvin, SeasonMoonAnswer.Of(window.Moon));
    }
}

/// <summary>The moon in the middle of a window.</summary>
/// <param name="AgeDays">Since new moon, to half a day.</param>
/// <param name="AltitudeDeg">Airless.</param>
public sealed record SeasonMoonAnswer(double AgeDays, double LitShare, bool IsWaxing, double AltitudeDeg, double BearingDeg, bool InSpan)
{
    public static SeasonMoonAnswer Of(MoonThen moon)
    {
        ArgumentNullException.ThrowIfNull(moon);
        return new SeasonMoonAnswer(
            Math.Round(moon.AgeDays, 1), Math.Round(moon.LitShare, 3), moon.IsWaxing, Math.Round(moon.AltitudeDeg, 2), Math.Round(moon.Bearing.Degrees, 2), moon.InSpan);
    }
}
