using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Light;

/// <summary>How far a forecast moment of light may be off, itemised, as one standard deviation [s].</summary>
/// <param name="TerrainS">From the grid: its spacing and the error of its heights.</param>
/// <param name="SightLineS">From the coefficient of terrestrial refraction, ±0.05.</param>
/// <param name="RefractionS">From the day-to-day refraction of the sun near the horizon.</param>
public readonly record struct TimingUncertainty(double TerrainS, double SightLineS, double RefractionS)
{
    // Height error of a shuttle-radar grid, and the share of a cell by which its smoothing displaces a crest. Together
    // 13 m for a 3″ grid: 0.07° at 10 km, as measured between 30 m and 90 m grids (docs/accuracy.md).
    private const double HeightErrorM = 5;
    private const double CellShare = 0.13;

    // What stands in the way and the ground that is lit err each for itself.
    private static readonly double BothEnds = Math.Sqrt(2);

    private const double RefractionKError = 0.05;

    // Near the sea-level horizon the sun's refraction of 0.55° varies from day to day by about 0.16° (quoted from
    // memory), and its variable part lies in the lowest air; hence the square.
    private const double HorizonRefractionDeg = 0.55;
    private const double HorizonVariationDeg = 0.16;

    public static TimingUncertainty None => default;

    /// <summary>The parts combined, as independent errors.</summary>
    public double CombinedS => Math.Sqrt((TerrainS * TerrainS) + (SightLineS * SightLineS) + (RefractionS * RefractionS));

    /// <summary>Angles in question over the speed at which the sun clears the horizon there.</summary>
    internal static TimingUncertainty At(HorizonCrossing crossing, SunOverGround ground, Length height)
    {
        if (crossing.Sun is not { } sun) return None;
        const double apartS = 10;
        var ratePerS = Math.Abs(ground.At(crossing.Seconds + apartS).ClearanceRad - ground.At(crossing.Seconds - apartS).ClearanceRad) / (2 * apartS);
        var terrainRad = double.IsNaN(sun.HorizonM)
            ? 0
            : Math.Atan(BothEnds * double.Hypot(HeightErrorM, CellShare * ground.CellM) / sun.HorizonM);
        var sightLineRad = double.IsNaN(sun.HorizonM) ? 0 : sun.HorizonM * RefractionKError / (2 * Terrain.SightModel.EarthRadiusM);
        var refraction = Refraction.OfApparent(Angle.FromRadians(sun.ApparentRad), height).Degrees / HorizonRefractionDeg;
        var refractionRad = Angle.FromDegrees(HorizonVariationDeg * refraction * refraction).Radians;
        // A sun that grazes a ridge crosses it so slowly that a straight division would promise nothing at all.
        var perS = Math.Max(ratePerS, Angle.FromDegrees(0.02).Radians / 60);
        return new TimingUncertainty(terrainRad / perS, sightLineRad / perS, refractionRad / perS);
    }
}
