using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>A day's light as sets are judged over it, be it worked out in full or from the table of a season.</summary>
/// <param name="At">The instant of a moment of the day [s].</param>
internal sealed record JudgedDay(IReadOnlyList<JudgedWindow> Windows, Func<double, Instant> At, EdgeDoubts Doubts, SetWishes Wishes)
{
    /// <summary>How many starts are compared.</summary>
    public int Looks { get; init; } = 120;

    public static JudgedDay Of(LightOfDay day)
    {
        var (chart, span) = (day.Chart, day.Span.Without(day.Wishes.DarkStrips));
        return new JudgedDay(
            [.. day.Windows.Select(window => new JudgedWindow(
                span, new Stretch(chart.Track.SecondsAt(window.Start.At), chart.Track.SecondsAt(window.End.At)), window.Half, day.Ridge)
            {
                IsRidgeSeen = window.Tones?.Ridge?.IsSeen != false,
                Exposure = day.Wishes.ChooseExposure ? window.Tones?.Exposure?.Shutter : null,
            })],
            chart.Track.At, day.Doubts, day.Wishes);
    }

    /// <summary>When the photographer means to begin [s]; null to be advised, and where the day has no such light.</summary>
    public double? GivenStartS => Wishes.Start switch
    {
        StartWish.OnTheClock clock => SecondsAt(Wishes.OnTheClock(clock.Time)),
        StartWish.AfterTheLight light => Windows.FirstOrDefault(window => window.Half == light.Half) is { } window
            ? SecondsAt(Rounded.ToSeconds(At(window.Stretch.StartS))) + light.After.TotalSeconds : null,
        _ => null,
    };

    public double SecondsAt(Instant instant) => (instant - At(0)).TotalSeconds;

    /// <summary>The first whole second of the clock from a moment on.</summary>
    public double NextWholeS(double seconds)
    {
        var at = At(seconds);
        var whole = Rounded.ToSeconds(at);
        return SecondsAt(whole < at ? whole + Duration.FromSeconds(1) : whole);
    }
}

/// <summary>One window of a day.</summary>
/// <param name="Span">What its frames are held against.</param>
/// <param name="Ridge">How bright the lit ridge is.</param>
internal sealed record JudgedWindow(SpanLight Span, Stretch Stretch, DayHalf Half, RidgeBrightness Ridge)
{
    /// <summary>Of every frame shot in it; null for the plan's own.</summary>
    public Duration? Exposure { get; init; }

    /// <summary>The ridge can be told from the sky behind it; without that no set is worth anything.</summary>
    public bool IsRidgeSeen { get; init; } = true;
}
