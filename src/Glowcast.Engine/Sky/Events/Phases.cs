using Glowcast.Engine.Measures;
using MathNet.Numerics.RootFinding;

namespace Glowcast.Engine.Sky;

/// <summary>Which phases of light belong to which altitudes of the sun.</summary>
/// <remarks>Sky phenomena: American Meteorological Society, Glossary of Meteorology (entries alpenglow, antitwilight arch,
/// bright segment, dark segment, purple light, civil, nautical and astronomical twilight), for clear air and a flat horizon.
/// The arch is given the life of the dark segment whose upper edge it is.</remarks>
public static class Phases
{
    private const double LowSunStopsLost = 2;

    public static SunRange PurpleLight { get; } = SunRange.Degrees(-2, -6);

    public static SunRange BrightSegment { get; } = SunRange.Degrees(-7, -18);

    public static SunRange DarkSegment { get; } = SunRange.Degrees(-0.5, -7);

    /// <summary>From sunset by convention (34′ of refraction and 16′ of semidiameter).</summary>
    public static SunRange CivilTwilight { get; } = SunRange.Degrees(-50.0 / 60, -6);

    public static SunRange NauticalTwilight { get; } = SunRange.Degrees(-6, -12);

    public static SunRange AstronomicalTwilight { get; } = SunRange.Degrees(-12, -18);

    private static Angle EndOfAfterglow { get; } = Angle.FromDegrees(-9);

    /// <summary>The phases of a lit point, by its own horizon.</summary>
    /// <param name="horizon">Apparent altitude of the skyline the sun goes behind.</param>
    /// <param name="semidiameter">Of the sun, 15.7′ to 16.3′.</param>
    /// <returns>Those that exist there: from a summit in clean air no direct sun may be low enough, behind a high skyline
    /// none is.</returns>
    public static IReadOnlyDictionary<Phase, SunRange> Of(Length height, Angle horizon, Angle semidiameter, Haze haze, Air? air = null)
    {
        // The limb is seen along the ray that grazes the horizon, so that ray's own refraction counts, not the centre's.
        var edge = Refraction.ToAirless(horizon, height, air);
        var (whole, gone) = (edge + semidiameter, edge - semidiameter);
        var belowSea = Refraction.ToAirless(-Refraction.Dip(height, Length.Zero), height, air) - semidiameter;
        var phases = new Dictionary<Phase, SunRange>
        {
            [Phase.DirectLight] = new(Angle.FromDegrees(90), whole),
            [Phase.FirstOrLastDirectLight] = new(whole, gone),
            [Phase.DirectLowSun] = new(LowSun(height, horizon, haze, air) ?? gone, gone),
            [Phase.Afterglow] = new(Angle.Min(gone, belowSea), EndOfAfterglow),
            [Phase.PurpleLight] = PurpleLight,
            [Phase.BrightSegment] = BrightSegment,
            [Phase.DarkSegment] = DarkSegment,
            [Phase.AntitwilightArch] = DarkSegment,
            [Phase.CivilTwilight] = CivilTwilight,
            [Phase.NauticalTwilight] = NauticalTwilight,
            [Phase.AstronomicalTwilight] = AstronomicalTwilight,
            [Phase.Night] = SunRange.Degrees(-18, -91),
        };
        return phases.Where(phase => !phase.Value.IsEmpty).ToDictionary();
    }

    /// <summary>Airless altitude below which the beam has lost two stops, if it has lost them above the horizon.</summary>
    private static Angle? LowSun(Length height, Angle horizon, Haze haze, Air? air)
    {
        double TooDim(double apparentRad) =>
            DirectBeam.At(Angle.FromRadians(apparentRad), height, haze, air).StopsLost - LowSunStopsLost;
        if (TooDim(horizon.Radians) <= 0) return null;
        var apparentRad = TooDim(Math.PI / 2) >= 0
            ? Math.PI / 2
            : Brent.FindRoot(TooDim, horizon.Radians, Math.PI / 2, accuracy: 1e-7);
        return Refraction.ToAirless(Angle.FromRadians(apparentRad), height, air);
    }
}
