using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Light;

/// <summary>How far a forecast moment of light may be off, itemised, as one standard deviation [s].</summary>
/// <param name="TerrainS">From the grid: its spacing and the error of its heights.</param>
/// <param name="SightLineS">From the coefficient of terrestrial refraction, ±0.05.</param>
/// <param name="RefractionS">From the day-to-day refraction of the sun near the horizon.</param>
public readonly record struct TimingUncertainty(double TerrainS, double SightLineS, double RefractionS)
{
    // The share of a cell by which a grid's smoothing lowers a crest. With heights off by 5 m together 13 m for a 3″ grid:
    // 0.07° at 10 km, as measured between 30 m and 90 m grids (docs/accuracy.md).
    private const double CellShare = 0.13;

    // Less where the grid's own crests are blunt: of real mountains a net three times coarser loses this share of the drop
    // from its crests to their neighbours.
    private const double DropShare = 0.67;

    // What stands in the way and the ground that is lit err each for itself.
    private static readonly double BothEnds = Math.Sqrt(2);

    private const double RefractionKError = 0.05;

    // Near the sea-level horizon the sun's refraction of 0.55° varies from day to day by about 0.16° (quoted from
    // memory), and its variable part lies in the lowest air; hence the square.
    private const double HorizonRefractionDeg = 0.55;
    private const double HorizonVariationDeg = 0.16;

    // Clearances are known within ±12°; farther than this, which is ground a cell away, the time goes on in proportion.
    private const double MostRad = 8 * Math.PI / 180;

    private const double FirstStepS = 10;
    private const double LongestStepS = 120;
    private const double StepGrowth = 1.25;

    public static TimingUncertainty None => default;

    /// <summary>From the haze in the beam's way and the brightness of the sky: where how strong the light is decides, or could come to.</summary>
    public double BeamS { get; init; }

    /// <summary>From what the grid smooths away of slopes, there too.</summary>
    public double FacingS { get; init; }

    /// <summary>The strength of the beam decides the moment, and no horizon.</summary>
    public bool IsByBeam { get; init; }

    /// <summary>The parts combined, as independent errors.</summary>
    public double CombinedS => Math.Sqrt((TerrainS * TerrainS) + (SightLineS * SightLineS) + (RefractionS * RefractionS) + (BeamS * BeamS) + (FacingS * FacingS));

    /// <summary>By how much a grid's crests may miss the real ones for being blunt, one standard deviation.</summary>
    public static Length CrestError(Terrain.ElevationGrid grid)
    {
        ArgumentNullException.ThrowIfNull(grid);
        return Length.FromMetres(Math.Min(CellShare * grid.Posts.CellSize.Metres, DropShare * grid.CrestDropM));
    }

    /// <summary>How far the moment moves when the sun stands higher or lower over the horizon than thought, by the angles in
    /// question together: the larger of the two ways, shared out by the squares of the angles.</summary>
    /// <remarks>Where light lasts but a moment, or almost came before, the moment moves to the next or the earlier light.</remarks>
    internal static TimingUncertainty At(HorizonCrossing crossing, SunOverGround ground, Length height)
    {
        if (crossing.Sun is not { } sun) return None;
        var terrainRad = double.IsNaN(sun.HorizonM)
            ? 0
            : Math.Atan(BothEnds * ground.HeightErrorM / sun.HorizonM);
        var sightLineRad = double.IsNaN(sun.HorizonM) ? 0 : sun.HorizonM * RefractionKError / (2 * Terrain.SightModel.EarthRadiusM);
        var refraction = Refraction.OfApparent(Angle.FromRadians(sun.ApparentRad), height).Degrees / HorizonRefractionDeg;
        var refractionRad = Angle.FromDegrees(HorizonVariationDeg * refraction * refraction).Radians;
        var offRad = Math.Min(MostRad, Math.Sqrt((terrainRad * terrainRad) + (sightLineRad * sightLineRad) + (refractionRad * refractionRad)));
        var perRad = offRad > 0 ? Math.Max(SecondsUntil(offRad, 1), SecondsUntil(offRad, -1)) / offRad : 0;
        return new TimingUncertainty(terrainRad * perRad, sightLineRad * perRad, refractionRad * perRad);

        // Forward to where the sun has gone on by that angle, backward to where it had still to come by it.
        double SecondsUntil(double angleRad, int direction)
        {
            var isRising = ground.At(crossing.Seconds + FirstStepS).ClearanceRad > ground.At(crossing.Seconds - FirstStepS).ClearanceRad;
            var (wantedRad, beforeS, beforeRad) = (direction * angleRad, 0.0, 0.0);
            for (var stepS = FirstStepS; ; stepS = Math.Min(LongestStepS, StepGrowth * stepS))
            {
                var atS = crossing.Seconds + (direction * (beforeS + stepS));
                if (atS < 0 || atS > ground.Track.LengthS) return beforeS;
                var goneRad = (isRising ? 1 : -1) * (ground.At(atS).ClearanceRad - sun.ClearanceRad);
                if (direction * goneRad >= angleRad) return beforeS + (stepS * (wantedRad - beforeRad) / (goneRad - beforeRad));
                (beforeS, beforeRad) = (beforeS + stepS, goneRad);
            }
        }
    }
}
