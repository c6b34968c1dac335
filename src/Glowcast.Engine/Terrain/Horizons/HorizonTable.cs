using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Terrain;

/// <summary>The terrain horizons of many points in all directions from which the sun can light them, worked out once and asked
/// for any number of days.</summary>
/// <remarks>Horizons every <see cref="HorizonDirections.StepDeg"/> by exact <see cref="HorizonFan"/>, kept to 0.0025° and interpolated between: good for finding
/// when light comes to within a minute or two, not for the moment itself. Kept as airless altitudes, with the standard air's
/// refraction at each point taken out, so that the sun's airless altitude can be compared directly. What stands lower or higher
/// than the sun ever does in that direction is only said to do so, and none is kept as higher than 81.9°.</remarks>
public sealed class HorizonTable
{
    /// <summary>Goes up when horizons are worked out in another way, so that kept tables of an older one are not found.</summary>
    internal const double Edition = 3;

    // No sun stands so high; said of where it never stands.
    private const double NeverRad = Math.PI / 2;

    private const double UnitRad = 0.0025 * Math.PI / 180;

    // A skyline strays from a straight line between two azimuths the farther, the more it bends there: where it jumps, by all of it.
    private const double LeastDoubtRad = 0.03 * Math.PI / 180;
    private const double DoubtPerBend = 1;

    private readonly short[] airless;
    private readonly HorizonDirections directions;

    internal HorizonTable(short[] airless, HorizonDirections directions) => (this.airless, this.directions) = (airless, directions);

    public long Bytes => airless.LongLength * sizeof(short);

    internal HorizonDirections Directions => directions;

    /// <summary>Point by point, a value a direction, in units of 0.0025°.</summary>
    internal ReadOnlySpan<short> Values => airless;

    /// <param name="progress">Share done, 0 to 1.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static HorizonTable Of(
        IReadOnlyList<Place> points, ElevationGrid grid, SightModel model, IProgress<double>? progress = null, CancellationToken cancel = default) =>
        Of(points, grid, model, SunReach.SunDeclinationDeg, progress, cancel);

    /// <param name="mostDeclinationDeg">Of what may stand over them: the sun, or the moon.</param>
    internal static HorizonTable Of(
        IReadOnlyList<Place> points, ElevationGrid grid, SightModel model, double mostDeclinationDeg, IProgress<double>? progress, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(points);
        var directions = HorizonDirections.For(points, mostDeclinationDeg);
        var table = new HorizonTable(new short[points.Count * directions.Count], directions);
        new HorizonFan(grid, model, FanDirections.Of(directions), isExact: true).Run(points, (i, horizonRad) => table.Fill(i, points[i].Height.Metres, horizonRad), progress, cancel);
        return table;
    }

    /// <summary>The horizons of a point all around, as <see cref="AirlessRadAt"/> has them at whole degrees, with their doubt.</summary>
    internal void AllAround(int point, HorizonAround around) =>
        around.Fill(airless.AsSpan(point * directions.Count, directions.Count), directions, (float)UnitRad, (float)LeastDoubtRad, (float)DoubtPerBend);

    /// <summary>The airless altitude of a sun whose centre stands on the horizon of a point.</summary>
    /// <param name="azimuthRad">Where the sun never stands, the zenith is answered: no light comes from there.</param>
    internal double AirlessRadAt(int point, double azimuthRad)
    {
        var (before, after, share) = directions.Beside(azimuthRad);
        if (before < 0 || after < 0) return NeverRad;
        var row = airless.AsSpan(point * directions.Count, directions.Count);
        int b = row[before], c = row[after];
        return UnitRad * (b + (share * (c - b)));
    }

    private void Fill(int point, double heightM, ReadOnlySpan<float> horizonRad)
    {
        var row = airless.AsSpan(point * directions.Count, directions.Count);
        for (var i = 0; i < row.Length; i++)
        {
            var altitudeRad = float.IsNaN(horizonRad[i]) ? directions[i].FloorRad : Refraction.ToAirlessRad(horizonRad[i], heightM);
            row[i] = (short)Math.Min(Math.Round(altitudeRad / UnitRad), short.MaxValue);
        }
    }
}
