using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>How a camera is set, and how near lit ground may come to clipping.</summary>
/// <param name="Aperture">f-number.</param>
/// <param name="Iso">Sensitivity.</param>
/// <param name="MarginStops">That the brightest lit ground is kept under clipping by.</param>
public readonly record struct ExposureSettings(double Aperture, double Iso = Metering.UsualIso, double MarginStops = ExposureSettings.UsualMarginStops)
{
    /// <summary>One channel clips before the luminance does: in red light by half a stop to one.</summary>
    public const double UsualMarginStops = 1;

    public const double UsualAperture = 8;
}

/// <summary>What decides an exposure.</summary>
public enum ExposureRule
{
    /// <summary>The light that falls on the lit ground, as an incident-light meter held there would say.</summary>
    LightOnGround,

    /// <summary>The brightest lit ground, kept under clipping.</summary>
    BrightestGround,
}

/// <summary>The exposure that suits one moment.</summary>
/// <param name="Ev100">Exposure value at ISO 100 of the setting.</param>
/// <param name="ShutterS">At the aperture and the sensitivity [s].</param>
public readonly record struct MomentExposure(Instant At, double Ev100, double ShutterS, ExposureRule Rule);

/// <summary>The one exposure for all the frames of a set shot in a window.</summary>
/// <param name="Ev100">Exposure value at ISO 100 of the setting: that of the brightest of the three moments.</param>
/// <param name="ShutterS">[s].</param>
/// <param name="Kelvin">Colour temperature of all the light on the lit ground half-way: a white balance fixed there makes it neutral; null where it has none.</param>
/// <param name="DriftStops">By how much the light on the lit ground grows from start to end.</param>
/// <param name="Start">What would suit the start alone; likewise the middle and the end.</param>
public sealed record PictureExposure(
    double Ev100, double ShutterS, ExposureSettings Settings, double? Kelvin, double DriftStops, MomentExposure Start, MomentExposure Middle, MomentExposure End)
{
    private static readonly Duration Longest = Duration.FromHours(1);
    private static readonly Duration Shortest = Duration.FromTicks(10);

    // Clear blue sky: 8000 to 15 000 K. Common knowledge, no source.
    private const double SkyKelvin = 12_000;

    // The brightest hundredth by solid angle may clip.
    private const double MayClip = 0.01;

    private static readonly Chromaticity Sky = Chromaticity.OfPlanckian(SkyKelvin);

    /// <summary>The same as a time, as short and as long as a plan may ask for.</summary>
    public Duration Shutter => ClockTime(ShutterS);

    /// <summary>A shutter time [s] as the clock of a set takes it: from a microsecond to an hour.</summary>
    internal static Duration ClockTime(double shutterS) =>
        shutterS >= Longest.TotalSeconds ? Longest : Duration.Max(Shortest, Duration.FromSeconds(shutterS));

    /// <returns>Null where the picture shows no ground.</returns>
    public static PictureExposure? Of(PictureTones start, PictureTones middle, PictureTones end, ExposureSettings settings)
    {
        ArgumentNullException.ThrowIfNull(start);
        ArgumentNullException.ThrowIfNull(middle);
        ArgumentNullException.ThrowIfNull(end);
        if (!middle.Ground.Any(tone => tone.Weight > 0)) return null;
        MomentExposure[] moments = [At(start, settings), At(middle, settings), At(end, settings)];
        var brightest = moments.MaxBy(moment => moment.Ev100);
        return new PictureExposure(
            brightest.Ev100, brightest.ShutterS, settings, KelvinOf(middle), Math.Log2(OnLit(end).TotalLux / OnLit(start).TotalLux), moments[0], moments[1], moments[2]);
    }

    private static MomentExposure At(PictureTones tones, ExposureSettings settings)
    {
        var byLight = ExposureValue.OfIlluminance(OnLit(tones).TotalLux);
        var byBrightest = Metering.Ev100UnderClipping(BrightestCd(tones), settings.MarginStops);
        var ev = Math.Max(byLight, byBrightest);
        return new MomentExposure(
            tones.At, ev, Metering.ShutterS(ev, settings.Aperture, settings.Iso), byBrightest > byLight ? ExposureRule.BrightestGround : ExposureRule.LightOnGround);
    }

    /// <summary>The mean light on the ground that direct light lifts by a stop; on all of it where there is none.</summary>
    private static GroundLight OnLit(PictureTones tones)
    {
        var lit = tones.Ground.Where(tone => tone.Weight > 0 && tone.Light.LiftStops >= 1).ToList();
        if (lit.Count == 0) lit = [.. tones.Ground.Where(tone => tone.Weight > 0)];
        var all = lit.Sum(tone => tone.Weight);
        return new GroundLight(Mean(light => light.DirectLux), Mean(light => light.SkyLux), Mean(light => light.ReflectedLux));

        double Mean(Func<GroundLight, double> part) => lit.Sum(tone => tone.Weight * part(tone.Light)) / all;
    }

    private static double BrightestCd(PictureTones tones)
    {
        var left = MayClip * tones.Ground.Sum(tone => tone.Weight);
        return tones.Ground.Where(tone => tone.Weight > 0).OrderByDescending(tone => tone.SeenCd).First(tone => (left -= tone.Weight) < 0).SeenCd;
    }

    // Light of the beam and of the sky together; what ground sends back has about the colour of both.
    private static double? KelvinOf(PictureTones tones)
    {
        var light = OnLit(tones);
        var (beam, sky) = (light.DirectLux, light.SkyLux);
        var (x, z) = ((beam * tones.BeamColour.X / tones.BeamColour.Y) + (sky * Sky.X / Sky.Y), (beam * Z(tones.BeamColour)) + (sky * Z(Sky)));
        var all = x + beam + sky + z;
        return new Chromaticity(x / all, (beam + sky) / all).Correlated()?.Kelvin;

        static double Z(Chromaticity colour) => (1 - colour.X - colour.Y) / colour.Y;
    }
}
