using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Light;

/// <summary>The air that the sun's beam comes through.</summary>
/// <param name="Haze">Between the sun and the ridge.</param>
/// <param name="Air">At the lookout; null for standard air.</param>
public sealed record BeamAir(Haze Haze, Air? Air = null)
{
    public static BeamAir Usual { get; } = new(new Haze(0.05));
}

/// <summary>When direct light is seen on ground: by how much the beam must face it to lift it by so many stops over the same ground in shade.</summary>
/// <remarks>Lit when share of the disc × n·s ≥ V · (2^stops − 1) · E_sky/B (docs/model.md, L6), V the sky view, B the beam on ground that faces it, E_sky the sky on open level
/// ground. The quotient is kept by airless altitude and height; between the nodes its logarithm runs straight, within 0.01 stop. Light that lit ground around sends
/// into the shade is left out. Immutable.</remarks>
internal sealed class LitRule
{
    // Nodes lie evenly in arsinh(altitude / 1.5°): every 0.05° near the horizontal, every 2° high up.
    private const double ScaleDeg = 1.5;
    private const double NodeStep = 0.03;
    private const double LowestDeg = -8;
    private const double HeightStepM = 500;

    // No beam at all.
    private const double NeverLog = 60;

    private static readonly double First = Math.Asinh(LowestDeg / ScaleDeg);
    private static readonly int Nodes = (int)Math.Ceiling((Math.Asinh(90 / ScaleDeg) - First) / NodeStep) + 1;

    private readonly double lowestM;
    private readonly int heights;
    private readonly double[] logNeed;
    private readonly double[] liftRad;

    /// <param name="stops">By which direct light must lift the ground.</param>
    /// <param name="lookout">Where the air was measured.</param>
    /// <param name="otherSkyLux">Of the sky besides what the source of the beam gives it, in the scale of the sun's light.</param>
    public LitRule(double stops, BeamAir air, Length lookout, Length lowest, Length highest, double sunDistanceAu, double otherSkyLux = 0)
    {
        ArgumentNullException.ThrowIfNull(air);
        (lowestM, heights) = (lowest.Metres, (int)Math.Ceiling((highest.Metres - lowest.Metres) / HeightStepM) + 2);
        (logNeed, liftRad) = (new double[Nodes * heights], new double[Nodes * heights]);
        var factor = Math.Log2(Math.Pow(2, stops) - 1);
        Parallel.For(0, Nodes, AllProcessors.Until(), node =>
        {
            var airless = Angle.FromDegrees(Math.Min(90, ScaleDeg * Math.Sinh(First + (node * NodeStep))));
            var logSky = Math.Log2(SkyLight.IlluminanceLux(airless) + otherSkyLux);
            for (var level = 0; level < heights; level++)
            {
                var height = Length.FromMetres(lowestM + (level * HeightStepM));
                var beam = DirectBeam.At(Refraction.ToApparent(airless, height, air.Air?.MovedTo(lookout, height)), height, air.Haze, air.Air?.MovedTo(lookout, height), distanceAu: sunDistanceAu);
                logNeed[(node * heights) + level] = Math.Min(NeverLog, factor + logSky - Math.Log2(beam.NormalIlluminanceLux));
                liftRad[(node * heights) + level] = Refraction.ToApparentRad(airless.Radians, height.Metres) - airless.Radians;
            }
        });
    }

    /// <summary>log₂ of the share of the disc × n·s that lights ground with the whole sky in view.</summary>
    public double LogNeed(double airlessRad, double heightM) => At(logNeed, airlessRad, heightM);

    /// <summary>As seen from there [rad].</summary>
    public double ApparentRad(double airlessRad, double heightM) => airlessRad + At(liftRad, airlessRad, heightM);

    private double At(double[] values, double airlessRad, double heightM)
    {
        var x = Math.Clamp((Math.Asinh(double.RadiansToDegrees(airlessRad) / ScaleDeg) - First) / NodeStep, 0, Nodes - 1.001);
        var y = Math.Clamp((heightM - lowestM) / HeightStepM, 0, heights - 1.001);
        var (node, level) = ((int)x, (int)y);
        var (u, v) = (x - node, y - level);
        var i = (node * heights) + level;
        return ((1 - u) * (((1 - v) * values[i]) + (v * values[i + 1]))) + (u * (((1 - v) * values[i + heights]) + (v * values[i + heights + 1])));
    }
}
