using Glowcast.Engine.Light;

namespace Glowcast.Field.Words;

/// <summary>What the camera makes of a window, in words.</summary>
public static class ToneWords
{
    /// <summary>"1/60 s", "0.4 s", "8 s", "11 min 20 s".</summary>
    public static string Shutter(double seconds) => seconds switch
    {
        < 0.3 => $"1/{1 / seconds:0} s",
        < 10 => $"{seconds:0.#} s",
        < 60 => $"{seconds:0} s",
        _ => Say.Time(seconds),
    };

    public static string Of(PictureExposure exposure)
    {
        ArgumentNullException.ThrowIfNull(exposure);
        var settings = exposure.Settings;
        return $"{Shutter(exposure.ShutterS)} at f/{settings.Aperture:0.#}, ISO {settings.Iso:0} (EV {exposure.Ev100:0.0}), {Why(exposure)}; "
            + $"alone the start would ask for {Shutter(exposure.Start.ShutterS)}, the middle {Shutter(exposure.Middle.ShutterS)}, the end {Shutter(exposure.End.ShutterS)}; "
            + $"the lit ground changes by {exposure.DriftStops:+0.0;-0.0;0} stops{Balance(exposure.Kelvin)}";
    }

    /// <summary>The setting alone, with the shutter time that a set is planned with: "1/108 s, ISO 100, 3750 K".</summary>
    public static string Setting(PictureExposure exposure, NodaTime.Duration shutter)
    {
        ArgumentNullException.ThrowIfNull(exposure);
        return $"{Shutter(shutter.TotalSeconds)}, ISO {exposure.Settings.Iso:0}{(exposure.Kelvin is { } kelvin ? $", {Rounded(kelvin):0} K" : "")}";
    }

    public static string Of(ToneRange range)
    {
        ArgumentNullException.ThrowIfNull(range);
        return $"{Of(range.Verdict)}: {range.Stops:0.0} stops from the darkest tenth of the ground in the picture, {Say.Distance(range.DarkestM)} off, to the brightest, {Say.Distance(range.BrightestM)} off; {range.BareStops:0.0} without air";
    }

    public static string Of(ToneVerdict verdict) => verdict switch
    {
        ToneVerdict.Has => "there is one",
        ToneVerdict.Weak => "weak",
        _ => "none",
    };

    /// <summary>Null where the ridge is seen.</summary>
    public static string? NotSeen(RidgeInAir? ridge) => ridge is { IsSeen: false }
        ? $"The ridge is not seen: against the sky behind it {100 * Math.Abs(ridge.Contrast):0.0} % of contrast is left, and an eye needs {100 * RidgeInAir.LeastContrast:0} %."
        : null;

    /// <summary>What the ground is taken to be.</summary>
    public static string Of(Surfaces surfaces)
    {
        ArgumentNullException.ThrowIfNull(surfaces);
        var (bright, dark) = (surfaces.Ground.LitRidge, surfaces.Ground.ShadedGround);
        var own = surfaces.Raster is { } raster ? $"by {raster.Name}, and where that says nothing " : "";
        return own + (surfaces.SnowLine is { } line
            ? $"from {Say.Metres(line)} up it gives back {bright:0.##} of its light, below {dark:0.##}"
            : $"the ridge gives back {bright:0.##} of its light, the valley {dark:0.##}");
    }

    private static string Why(PictureExposure exposure) => (exposure.Start.Ev100, exposure.Middle.Ev100, exposure.End.Ev100) is var (start, middle, end)
        && (start >= middle && start >= end ? exposure.Start : middle >= end ? exposure.Middle : exposure.End).Rule == ExposureRule.BrightestGround
        ? $"the brightest lit ground {Stops(exposure.Settings.MarginStops)} under clipping"
        : "by the light on the lit ground";

    /// <summary>"a stop", "1.5 stops".</summary>
    public static string Stops(double stops) => stops == 1 ? "a stop" : $"{stops:0.##} stops";

    private static string Balance(double? kelvin) => kelvin is { } known ? $"; its light {Rounded(known):0} K" : "";

    private static double Rounded(double kelvin) => Math.Round(kelvin / 50) * 50;
}
