using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>A window of one day of a season, to a minute or two.</summary>
public sealed record SeasonWindow
{
    public required Interval Time { get; init; }

    /// <summary>Its start by the clocks of the lookout: of its time zone, else local mean solar time.</summary>
    public required LocalDateTime Begins { get; init; }

    public required DayHalf Half { get; init; }

    /// <summary>Of the ridge's columns lit, the mean over the window.</summary>
    public required double RidgeShare { get; init; }

    /// <summary>Of the valley lit, the mean over the window; null where none is visible.</summary>
    public required double? ValleyShare { get; init; }

    /// <summary>Apparent, at the lookout in the middle of the window.</summary>
    public required double SunAltitudeDeg { get; init; }

    /// <summary>Between the middle of the span and the sun, along the horizon.</summary>
    public required double SunFromViewDeg { get; init; }

    /// <summary>Shadow on the ridge in the middle of the set, or of the window where none is planned; null where the grid has no ground around it.</summary>
    public required RidgeShadow? Relief { get; init; }

    /// <summary>Then, at the median distance of the lit crest; null where none is lit then.</summary>
    public required BlackPoint? BlackPoint { get; init; }

    /// <summary>Of the sun's beam on the crest then; null where none is lit then.</summary>
    public required Chromaticity? BeamColour { get; init; }

    /// <summary>In the middle of the window.</summary>
    public required MoonThen Moon { get; init; }

    /// <summary>The planned set in this window; null where none is planned.</summary>
    public DayFit? Fit { get; init; }

    /// <summary>What made it a window.</summary>
    public required LightThresholds Thresholds { get; init; }

    public LightDirection Direction => LightDirections.Of(Measures.Angle.FromDegrees(SunFromViewDeg));
}

/// <summary>The light of a day in outline, window or not.</summary>
/// <param name="Twilight">With the sun above −6°, over a level horizon.</param>
/// <param name="SunUp">From sunrise to sunset over a level horizon.</param>
/// <param name="RidgeLit">With enough of the ridge in direct light, whatever the valley does.</param>
public sealed record DayShape(IReadOnlyList<Interval> Twilight, IReadOnlyList<Interval> SunUp, IReadOnlyList<Interval> RidgeLit)
{
    public static DayShape Dark { get; } = new([], [], []);
}

/// <summary>One day of a season.</summary>
/// <param name="Windows">In order of time.</param>
/// <param name="Best">The window that the score is of; null without one.</param>
/// <param name="Score">What speaks for the best window and against it; null without one.</param>
/// <param name="WhyNone">Why the day has no window; null where it has one.</param>
public sealed record SeasonDay(LocalDate Date, IReadOnlyList<SeasonWindow> Windows, SeasonWindow? Best, DayScore? Score, string? WhyNone)
{
    public DayShape Shape { get; init; } = DayShape.Dark;

    /// <summary>0 to 1; 0 without a window.</summary>
    public double Points => Score?.Total ?? 0;

    /// <summary>A sentence for each part of the score, or why there is no window.</summary>
    public IReadOnlyList<string> Reasons => Score is { } score ? score.Reasons : [WhyNone!];

    public static SeasonDay Without(LocalDate date, string why) => new(date, [], null, null, why);
}
