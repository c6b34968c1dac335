using Glowcast.Engine.Light;
using Glowcast.Field.Words;

namespace Glowcast.Server.Answers;

/// <summary>The one exposure for all frames shot in a window, at a fixed white balance.</summary>
/// <param name="Ev100">Exposure value at ISO 100.</param>
/// <param name="MarginStops">The brightest lit ground stays at least so far under clipping.</param>
/// <param name="Kelvin">Of all the light on the lit ground: a balance fixed there makes it neutral; null where it has none.</param>
/// <param name="DriftStops">By how much the light on the lit ground grows from start to end of the window; negative where it fades.</param>
/// <param name="Start">What would suit the start of the window alone.</param>
public sealed record WindowExposureAnswer(
    double Ev100, double ShutterS, double Iso, double Aperture, double MarginStops, double? Kelvin, double DriftStops, MomentExposureAnswer Start,
    MomentExposureAnswer Middle, MomentExposureAnswer End)
{
    /// <summary>All of it in words.</summary>
    public required string Sentence { get; init; }

    /// <summary>The shutter time alone, in words.</summary>
    public required string Shutter { get; init; }

    public static WindowExposureAnswer? Of(PictureExposure? exposure) => exposure is null ? null : new WindowExposureAnswer(
        exposure.Ev100, exposure.ShutterS, exposure.Settings.Iso, exposure.Settings.Aperture, exposure.Settings.MarginStops,
        exposure.Kelvin is { } kelvin ? Math.Round(kelvin) : null, exposure.DriftStops, MomentExposureAnswer.Of(exposure.Start),
        MomentExposureAnswer.Of(exposure.Middle), MomentExposureAnswer.Of(exposure.End))
    { Sentence = ToneWords.Of(exposure), Shutter = ToneWords.Shutter(exposure.ShutterS) };
}

/// <summary>What would suit one moment.</summary>
/// <param name="Rule">What decides it.</param>
public sealed record MomentExposureAnswer(string At, double Ev100, double ShutterS, ExposureRule Rule)
{
    public static MomentExposureAnswer Of(MomentExposure moment) => new(Moments.Utc(moment.At), moment.Ev100, moment.ShutterS, moment.Rule);
}

/// <summary>The darkest tenth of the ground in the picture against the brightest, half-way through a window.</summary>
/// <param name="Stops">As seen, through the air to each one's own distance.</param>
/// <param name="BareStops">Without any air.</param>
/// <param name="HasFromStops">From so many stops on the verdict is <see cref="ToneVerdict.Has"/>.</param>
/// <param name="WeakFromStops">From so many on it is <see cref="ToneVerdict.Weak"/>.</param>
public sealed record ToneRangeAnswer(
    double Stops, ToneVerdict Verdict, double BareStops, double DarkestCd, double BrightestCd, double DarkestKm, double BrightestKm, double HasFromStops,
    double WeakFromStops)
{
    public static ToneRangeAnswer? Of(ToneRange? range) => range is null ? null : new ToneRangeAnswer(
        range.Stops, range.Verdict, range.BareStops, range.DarkestCd, range.BrightestCd, range.DarkestM / 1000, range.BrightestM / 1000,
        ToneRange.HasFromStops, ToneRange.WeakFromStops);
}

/// <summary>The ridge against the sky behind it, through the air.</summary>
/// <param name="NotSeen">Less than half of the crest stands out by <paramref name="LeastContrast"/>: nothing of the picture's subject is to be seen, whatever fits.</param>
/// <param name="Contrast">Of the median piece of the crest; negative where it is the darker.</param>
/// <param name="SeenShare">Of the crest that stands out.</param>
public sealed record RidgeInAirAnswer(bool NotSeen, double Contrast, double SeenShare, double LeastContrast)
{
    /// <summary>Null where it is seen.</summary>
    public string? Sentence { get; init; }

    public static RidgeInAirAnswer? Of(RidgeInAir? ridge) =>
        ridge is null ? null : new RidgeInAirAnswer(!ridge.IsSeen, ridge.Contrast, ridge.SeenShare, RidgeInAir.LeastContrast) { Sentence = ToneWords.NotSeen(ridge) };
}
