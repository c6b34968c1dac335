using Glowcast.Engine.Light;
using Glowcast.Field.Words;
using NodaTime;

namespace Glowcast.Server.Answers;

/// <summary>A window of light: UTC to 0.1 s, start included, end excluded.</summary>
/// <param name="LitShare">Share of the ridge's columns lit in the middle of the window.</param>
/// <param name="ValleyShare">Share of the visible valley lit then; null where none is visible.</param>
/// <param name="SunFromViewDeg">Between the middle of the span and the sun, along the horizon.</param>
/// <param name="RidgeLight">How bright the lit ridge is, in which colour, and how fast that changes; null where it was not worked out.</param>
public sealed record WindowAnswer(
    string Start, string End, double LengthS, double StartUncertaintyS, double EndUncertaintyS, string? StartLocal, string? EndLocal,
    WindowEdgeCause StartCause, WindowEdgeCause EndCause, WindowEdgeAnswer AtStart, WindowEdgeAnswer AtEnd, double LitShare,
    double? ValleyShare, LightDirection LightDirection, double SunFromViewDeg, double SunAzimuthDeg, double SunAltitudeDeg, bool SunInSpan,
    RidgeLightAnswer? RidgeLight = null)
{
    public DayHalf Half { get; init; }

    /// <summary>Which kind of picture the window is for.</summary>
    public PictureKind Kind { get; init; }

    /// <summary>What opens it, in words.</summary>
    public string StartBecause { get; init; } = "";

    /// <summary>What ends it.</summary>
    public string EndBecause { get; init; } = "";

    /// <summary>Whose light it is; bearings and altitudes named after the sun are this one's.</summary>
    public LightSource Source { get; init; }

    /// <summary>The share of the picture's ridge that it lights at some time.</summary>
    public double PictureShare { get; init; }

    /// <summary>By how many stops direct light lifts what counts as lit.</summary>
    public double LitStops { get; init; }

    /// <summary>Bearings of the ridge that it does not light.</summary>
    public IReadOnlyList<UnlitAnswer> Unlit { get; init; } = [];

    /// <summary>The same in words; null where it lights all.</summary>
    public string? UnlitSentence { get; init; }

    /// <summary>What gives the picture its dark in the middle of the window, and how much of the picture's ground is dark then.</summary>
    public DarkAnswer? Dark { get; init; }

    /// <summary>Null where the window stands alone.</summary>
    public BreakAnswer? BreakBefore { get; init; }

    /// <summary>How the ridge comes into the light.</summary>
    public SweepAnswer? Gains { get; init; }

    /// <summary>How it leaves it.</summary>
    public SweepAnswer? Loses { get; init; }

    /// <summary>Direction, relief and black point in the middle of the window; null where they were not worked out.</summary>
    public PictureLightAnswer? Picture { get; init; }

    /// <summary>Light by weather, as model files have it; null without files that reach the window.</summary>
    public WindowWeatherAnswer? Weather { get; init; }

    /// <summary>The sky at the horizon behind the ridge, half-way [cd/m²]; null where it was not worked out.</summary>
    public double? SkyCd { get; init; }

    /// <summary>How high the earth's shadow stands over the span in the middle of a twilight; null at other times, and on the sun's side.</summary>
    public double? EarthShadowTopDeg { get; init; }

    /// <summary>Null where it was not worked out.</summary>
    public WindowExposureAnswer? Exposure { get; init; }

    /// <summary>Of the whole picture; null where it was not worked out.</summary>
    public ToneRangeAnswer? BlackPoint { get; init; }

    /// <summary>Null where it was not worked out.</summary>
    public RidgeInAirAnswer? RidgeInAir { get; init; }

    public static WindowAnswer Of(LightWindow window, DateTimeZone? zone, RidgeBrightness? ridge = null)
    {
        ArgumentNullException.ThrowIfNull(window);
        return new WindowAnswer(
            Moments.Utc(window.Start.At), Moments.Utc(window.End.At), window.Length.TotalSeconds,
            window.Start.Uncertainty.CombinedS, window.End.Uncertainty.CombinedS,
            Moments.Local(window.Start.At, zone), Moments.Local(window.End.At, zone), window.Start.Cause, window.End.Cause,
            WindowEdgeAnswer.Of(window.Start), WindowEdgeAnswer.Of(window.End), window.RidgeShareInMiddle, window.ValleyShareInMiddle,
            window.Direction, window.SunFromView.Degrees, window.SunAzimuth.Degrees, window.SunAltitude.Degrees, window.SunInSpan,
            ridge is null ? null : RidgeLightAnswer.Of(WindowBrightness.Of(ridge, window)))
        {
            Half = window.Half,
            StartBecause = LightWords.Because(window.Start.Cause),
            EndBecause = LightWords.Because(window.End.Cause),
            Kind = window.Kind,
            Source = window.Source,
            PictureShare = window.PictureShare,
            LitStops = window.LitStops,
            Unlit = [.. window.Unlit.Select(unlit => new UnlitAnswer(unlit.From.Degrees, unlit.To.Degrees, unlit.Why))],
            UnlitSentence = LightWords.Unlit(window),
            Dark = new DarkAnswer(window.Dark.From, window.Dark.Share),
            BreakBefore = BreakAnswer.Of(window.BreakBefore),
            Gains = SweepAnswer.Of(window.Gains),
            Loses = SweepAnswer.Of(window.Loses),
            SkyCd = window.Tones?.SkyCd,
            EarthShadowTopDeg = window.EarthShadowTop?.Degrees,
            Exposure = WindowExposureAnswer.Of(window.Tones?.Exposure),
            BlackPoint = ToneRangeAnswer.Of(window.Tones?.BlackPoint),
            RidgeInAir = RidgeInAirAnswer.Of(window.Tones?.Ridge),
            Picture = window.Picture is { } picture ? PictureLightAnswer.Of(picture) : null,
        };
    }
}

/// <summary>Neighbouring bearings of the ridge that a window does not light.</summary>
public sealed record UnlitAnswer(double FromDeg, double ToDeg, UnlitReason Why);

/// <summary>What gives a picture its dark.</summary>
/// <param name="Share">Of all ground in the picture.</param>
public sealed record DarkAnswer(DarkSource From, double Share);
