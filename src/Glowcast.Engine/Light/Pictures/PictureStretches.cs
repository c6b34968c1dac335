using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Light;

/// <summary>When a day's light makes a kind of picture (docs/model.md, L7 and L7b).</summary>
internal static class PictureStretches
{
    /// <summary>Less of the crest is no tip.</summary>
    public const double FirstTip = 0.02;

    private const double HalfOfCrest = 0.5;
    private const double LookS = 60;

    // Nobody can use less.
    private const double ShortestS = 1;

    /// <summary>In order of time, in seconds of the chart's track; none where the scene or the day has no such picture.</summary>
    public static List<Stretch> Of(LightChart chart, PictureKind kind) => Whole(chart, kind).FindAll(stretch => stretch.LengthS >= ShortestS);

    /// <summary>What the frames of such a picture are held against.</summary>
    public static SpanLight SpanOf(LightChart chart, PictureKind kind)
    {
        var span = SpanLight.Of(chart);
        return kind switch
        {
            PictureKind.LitRidgeOverDarkGround => span,
            PictureKind.OverShadedDeck => span with { Shaded = DeckShaded(chart) },
            PictureKind.OverLitDeck => span with { Shaded = DeckLit(chart) },
            PictureKind.LitRidge or PictureKind.MoonlitRidge => span with { Shaded = null },
            _ => EverywhereIn(span, Of(chart, kind)),
        };
    }

    private static SpanLight EverywhereIn(SpanLight span, IReadOnlyList<Stretch> stretches) =>
        span with { Shaded = null, Ridge = stretches, Lit = [.. span.Lit.Select(lit => lit is null ? null : stretches)] };

    private static List<Stretch> Whole(LightChart chart, PictureKind kind) => kind switch
    {
        PictureKind.LitRidgeOverDarkGround => chart.ValleyShaded is { } shaded ? Stretch.Common(chart.RidgeLit, shaded) : chart.RidgeLit,
        PictureKind.LitTips => Tips(chart),
        PictureKind.OverShadedDeck => Stretch.Common(chart.RidgeLit, DeckShaded(chart)),
        PictureKind.OverLitDeck => Stretch.Common(chart.RidgeLit, DeckLit(chart)),
        PictureKind.Twilight => Twilight(chart),
        _ => chart.RidgeLit,
    };

    private static List<Stretch> DeckShaded(LightChart chart) => chart.Deck?.AtMost(chart.Scene.Thresholds.ValleyLit) ?? [];

    private static List<Stretch> DeckLit(LightChart chart) => chart.Deck?.AtLeast(1 - chart.Scene.Thresholds.ValleyLit) ?? [];

    private static List<Stretch> Tips(LightChart chart)
    {
        var tips = new List<Stretch>();
        foreach (var half in chart.Ridge.Halves.Where(half => chart.Ridge.PartOf(half) >= chart.Scene.Thresholds.LeastPicture))
        {
            var most = chart.Crest.GreatestIn(half.Time);
            var (first, most2) = (LitIn(half.Time, FirstTip * most), LitIn(half.Time, HalfOfCrest * most));
            if (first.Count == 0 || most2.Count == 0) continue;
            tips.Add(chart.IsClimbing((half.Time.StartS + half.Time.EndS) / 2)
                ? new Stretch(first[0].StartS, most2[0].StartS)
                : new Stretch(most2[^1].EndS, first[^1].EndS));
        }
        return tips;

        List<Stretch> LitIn(Stretch half, double share) => Stretch.Common(chart.Crest.AtLeast(share), [half]);
    }

    // By the crest of median height; a higher skyline that hides the sun by day makes shade, not twilight.
    private static List<Stretch> Twilight(LightChart chart)
    {
        if (RidgeBrightness.MedianCrest(chart.Scene) is not { } crest) return [];
        var gone = Phases.Of(crest.Height, -Refraction.Dip(crest.Height, Length.Zero), GeocentricSun.SemidiameterAtOneAu, chart.Air.Haze)[Phase.FirstOrLastDirectLight].To.Radians;
        var (onCrest, lookout) = (new ObserverFrame(crest), new ObserverFrame(chart.Scene.Lookout));
        var looks = (int)Math.Ceiling(chart.Track.LengthS / LookS) + 1;
        var stepS = chart.Track.LengthS / (looks - 1);
        return Stretch.Above(looks, stepS, look => Math.Min(gone - AltitudeRad(onCrest, look * stepS), AltitudeRad(lookout, look * stepS) - Daylight.Lowest.Radians));

        double AltitudeRad(ObserverFrame frame, double seconds) => AirlessSun.Seen(frame, chart.Track.EarthFixedAu(seconds)).AltitudeRad;
    }
}
