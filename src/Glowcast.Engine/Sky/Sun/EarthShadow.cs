using Glowcast.Engine.Measures;
using MathNet.Numerics.RootFinding;

namespace Glowcast.Engine.Sky;

/// <summary>How high the earth's shadow stands in the sky opposite the sun; the antitwilight arch stands on its top.</summary>
/// <param name="Top">Where the sight line leaves the shadow into air dense enough to glow.</param>
/// <param name="AtLeast">With thinner air counted as glowing, up to 35 km.</param>
/// <param name="AtMost">With only denser air, below 15 km; 90° when the shadow has passed the zenith by then.</param>
/// <remarks>AMS Glossary: antitwilight arch (3° to 6° wide above the antisolar point, its lower edge distinct about −2°) and
/// dark segment (seen from −0.5° to −7°, always wider than the sun is deep).</remarks>
public sealed record EarthShadow(Angle Top, Angle AtLeast, Angle AtMost)
{
    private const double GlowHeightM = 25_000;
    private const double LowGlowHeightM = 15_000;
    private const double HighGlowHeightM = 35_000;

    /// <summary>On a bearing, or null where none stands: by day, in full night, and on the sun's side.</summary>
    /// <remarks>The shadow is a cylinder of the earth's radius along the sun's airless direction; the bending of the rays that
    /// graze the ground, and the murk that stops them, act against each other and are left out.</remarks>
    public static EarthShadow? On(Azimuth bearing, Azimuth sunAzimuth, Angle airlessSunAltitude, Length lookoutHeight)
    {
        var offSunward = sunAzimuth.TurnTo(bearing);
        if (airlessSunAltitude < Phases.DarkSegment.To || airlessSunAltitude > Phases.DarkSegment.From || offSunward.Cos() >= 0) return null;
        return new EarthShadow(TopAt(GlowHeightM), TopAt(HighGlowHeightM), TopAt(LowGlowHeightM));

        Angle TopAt(double glowHeightM) => Edge(-offSunward.Cos(), airlessSunAltitude, lookoutHeight.Metres, glowHeightM);
    }

    /// <summary>Where it stands highest within a span.</summary>
    public static (Azimuth Bearing, EarthShadow Shadow)? Over(BearingSpan span, Azimuth sunAzimuth, Angle airlessSunAltitude, Length lookoutHeight)
    {
        var antisolar = sunAzimuth + Angle.FromDegrees(180);
        var nearest = span.Contains(antisolar)
            ? antisolar
            : antisolar.TurnTo(span.From).Abs() < antisolar.TurnTo(span.To).Abs() ? span.From : span.To;
        return On(nearest, sunAzimuth, airlessSunAltitude, lookoutHeight) is { } shadow ? (nearest, shadow) : null;
    }

    /// <summary>The elevation at which a sight line leaves the shadow just at the glowing height.</summary>
    private static Angle Edge(double cosOffAntisolar, Angle sunAltitude, double lookoutM, double glowHeightM)
    {
        double TooHighM(double elevationRad) => ExitHeightM(elevationRad, cosOffAntisolar, -sunAltitude.Radians, lookoutM) - glowHeightM;
        if (TooHighM(0) <= 0) return Angle.Zero;
        return Angle.FromRadians(TooHighM(Math.PI / 2) >= 0 ? Math.PI / 2 : Brent.FindRoot(TooHighM, 0, Math.PI / 2, accuracy: 1e-7));
    }

    // In the frame of the lookout: x level towards the point opposite the sun, z up. The shadow's axis runs from the earth's
    // centre along (cos δ, 0, sin δ); a sight line leaves it where its distance from that axis is the earth's radius.
    private static double ExitHeightM(double elevationRad, double cosOffAntisolar, double depressionRad, double lookoutM)
    {
        const double farM = 1e9;
        var (sinDepression, cosDepression) = Math.SinCos(depressionRad);
        var (sinElevation, cosElevation) = Math.SinCos(elevationRad);
        var startM = RayTrace.EarthRadiusM + lookoutM;
        var along = (cosElevation * cosOffAntisolar * cosDepression) + (sinElevation * sinDepression);
        var across = 1 - (along * along);
        var outward = startM * (sinElevation - (along * sinDepression));
        var inside = Math.Pow(RayTrace.EarthRadiusM, 2) - Math.Pow(startM * cosDepression, 2);
        if (inside <= 0) return lookoutM; // the lookout itself is still in the sun
        if (across < 1e-15) return farM;
        var distanceM = (Math.Sqrt((outward * outward) + (across * inside)) - outward) / across;
        return Math.Sqrt((startM * startM) + (distanceM * distanceM) + (2 * startM * distanceM * sinElevation)) - RayTrace.EarthRadiusM;
    }
}
