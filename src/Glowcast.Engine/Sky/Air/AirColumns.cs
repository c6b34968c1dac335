using Glowcast.Engine.Measures;
using MathNet.Numerics;

namespace Glowcast.Engine.Sky;

/// <summary>How much of each part of the air a ray of sunlight passes, each in vertical columns of it above the sea.</summary>
public readonly record struct AirColumns(double Molecules, double Ozone, double Aerosol)
{
    private const double OzoneHeightM = 22_000;

    private static readonly RayTrace Trace = new(0.574);

    /// <summary>Along the refracted path of a ray, dipping ones included.</summary>
    public static AirColumns Along(Angle apparentAltitude, Length observerHeight, Length aerosolScaleHeight, Air? air = null)
    {
        var heightM = RayGrid.InRangeM(observerHeight.Metres);
        var altitudeRad = Math.Clamp(apparentAltitude.Radians, RayGrid.FloorRad(heightM), Math.PI / 2);
        return new AirColumns(
            AirMass.InSeaLevelColumns(apparentAltitude, observerHeight, air),
            OzoneAlong(altitudeRad, heightM),
            AerosolAlong(altitudeRad, heightM, aerosolScaleHeight.Metres));
    }

    // A thin shell at 22 km (Bird & Riordan 1984, SERI/TR-215-2436), met at the angle that Bouguer's constant gives, so that
    // refraction and dipping rays are in.
    private static double OzoneAlong(double altitudeRad, double heightM)
    {
        var cosAtShell = Trace.ImpactM(heightM, Math.Cos(altitudeRad)) / (RayTrace.EarthRadiusM + OzoneHeightM);
        return 1 / Math.Sqrt(1 - (cosAtShell * cosAtShell));
    }

    // A dipping ray comes in to its perigee and goes out again: twice the way from there, less the part behind the observer.
    private static double AerosolAlong(double altitudeRad, double heightM, double scaleHeightM) => altitudeRad >= 0
        ? AerosolUpward(altitudeRad, heightM, scaleHeightM)
        : (2 * AerosolUpward(0, Trace.PerigeeM(heightM, altitudeRad), scaleHeightM)) - AerosolUpward(-altitudeRad, heightM, scaleHeightM);

    // ∫ exp(−h/H) ds / H along h = h₀ + s sin a + s² cos² a / 2R′, the parabola of Chapman (1931), with R′ = R/(1 − k) the earth
    // as the bent ray sees it; k is taken half a scale height up, about where the haze is met.
    private static double AerosolUpward(double altitudeRad, double heightM, double scaleHeightM)
    {
        var (sin, cos) = Math.SinCos(altitudeRad);
        var k = TerrestrialRefraction.CoefficientAt(Length.FromMetres(heightM + (scaleHeightM / 2)));
        var halfRadii = RayTrace.EarthRadiusM / (1 - k) / (2 * scaleHeightM);
        return Math.Exp(-heightM / scaleHeightM) * Math.Sqrt(Math.PI * halfRadii) / cos * ScaledErfc(sin / cos * Math.Sqrt(halfRadii));
    }

    /// <summary>exp(x²)·erfc(x).</summary>
    private static double ScaledErfc(double x)
    {
        if (x < 10) return Math.Exp(x * x) * SpecialFunctions.Erfc(x);
        var inverse = 1 / (2 * x * x);
        return (1 - inverse + (3 * inverse * inverse)) / (x * Math.Sqrt(Math.PI));
    }
}
