using Glowcast.Engine.Measures;
using MathNet.Numerics.RootFinding;

namespace Glowcast.Engine.Sky;

/// <summary>How much the air lifts what is seen through it from outside: the sun, the moon, a star.</summary>
/// <remarks>
/// <para>Rays traced through the US Standard Atmosphere 1976 at 0.574 µm (<see cref="RayTrace"/>), tabulated at first use for
/// observers from −500 to 9000 m (heights beyond are taken at the nearer end) and altitudes from the zenith down past
/// the sea horizon. Refraction stops growing below the ray that grazes −1000 m, lower than any land.</para>
/// <para>Without an <see cref="Air"/> the air is standard at that height. With one, which is the air at the observer,
/// the bending of a ray is scaled by its density.</para>
/// <para>Apparent altitude always grows with airless altitude, so that each gives the other everywhere.</para>
/// </remarks>
public static class Refraction
{
    private const double WavelengthUm = 0.574;

    private static readonly RayTrace Trace = new(WavelengthUm);

    private static readonly Lazy<RefractionTable> Table = new(() => new RefractionTable(Trace));

    /// <summary>Refraction of something seen at an apparent altitude; zero beyond the zenith.</summary>
    public static Angle OfApparent(Angle apparentAltitude, Length observerHeight, Air? air = null) =>
        Angle.FromRadians(Density(air, observerHeight) * OfApparentRad(apparentAltitude.Radians, observerHeight.Metres));

    /// <summary>Refraction of something that would stand at this altitude if there were no air.</summary>
    public static Angle OfAirless(Angle airlessAltitude, Length observerHeight, Air? air = null) => Angle.FromRadians(air is null
        ? OfAirlessRad(airlessAltitude.Radians, observerHeight.Metres)
        : OfAirlessRad(airlessAltitude.Radians, observerHeight.Metres, Density(air, observerHeight)));

    public static Angle ToApparent(Angle airless, Length height, Air? air = null) => airless + OfAirless(airless, height, air);

    public static Angle ToAirless(Angle apparent, Length height, Air? air = null) => apparent - OfApparent(apparent, height, air);

    /// <summary><see cref="ToApparent"/> in standard air, for loops.</summary>
    public static double ToApparentRad(double airlessRad, double heightM) => airlessRad + OfAirlessRad(airlessRad, heightM);

    /// <summary><see cref="ToAirless"/> in standard air, for loops.</summary>
    public static double ToAirlessRad(double apparentRad, double heightM) => apparentRad - OfApparentRad(apparentRad, heightM);

    /// <summary>How far below the horizontal the refracted horizon of level ground or sea at a height lies; zero when it
    /// is not below the observer.</summary>
    public static Angle Dip(Length observerHeight, Length horizonHeight) => Trace.Dip(observerHeight, horizonHeight);

    private static double OfApparentRad(double apparentRad, double heightM) => apparentRad >= Math.PI / 2
        ? 0
        : Table.Value.OfApparentRad(apparentRad, RayGrid.InRangeM(heightM));

    private static double OfAirlessRad(double airlessRad, double heightM) => airlessRad >= Math.PI / 2
        ? 0
        : Table.Value.OfAirlessRad(airlessRad, RayGrid.InRangeM(heightM));

    // Refraction r of airless altitude a solves r = density · R(a + r); as R falls with altitude, 0 ≤ r ≤ density · R(a).
    private static double OfAirlessRad(double airlessRad, double heightM, double density)
    {
        const double roundingRad = 1e-9;
        var mostRad = density * OfApparentRad(airlessRad, heightM);
        return Brent.FindRoot(
            refractionRad => refractionRad - (density * OfApparentRad(airlessRad + refractionRad, heightM)),
            -roundingRad,
            mostRad + roundingRad,
            accuracy: 1e-12);
    }

    private static double Density(Air? air, Length height) => air?.DensityAgainstStandard(height) ?? 1;
}
