using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Terrain;

/// <summary>The terrain horizons of many points over a range of azimuths, worked out once and asked for any number of days.</summary>
/// <remarks>Exact rays every <see cref="StepDeg"/>, kept to 0.0025° and interpolated between: good for finding when light comes
/// to within a minute or two, not for the moment itself. Kept as airless altitudes, with the standard air's refraction at
/// each point taken out, so that the sun's airless altitude can be compared directly.</remarks>
public sealed class HorizonTable
{
    /// <summary>Between two azimuths of the table.</summary>
    public const double StepDeg = 1;

    private const double UnitRad = 0.0025 * Math.PI / 180;

    // An open view with nothing assumed beyond: the sun is never hidden above this.
    private const double OpenRad = -12 * Math.PI / 180;

    private readonly short[] airless;
    private readonly double fromRad;
    private readonly int steps;

    private HorizonTable(short[] airless, double fromRad, int steps) => (this.airless, this.fromRad, this.steps) = (airless, fromRad, steps);

    public long Bytes => airless.LongLength * sizeof(short);

    /// <param name="range">The azimuths that will be asked for; null for all.</param>
    /// <param name="progress">Share done, 0 to 1.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static HorizonTable Of(
        IReadOnlyList<Place> points, ElevationGrid grid, SightModel model, BearingSpan? range, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(points);
        var steps = range is null ? (int)(360 / StepDeg) + 1 : (int)Math.Ceiling(range.Width.Degrees / StepDeg) + 1;
        var table = new HorizonTable(new short[points.Count * steps], range?.From.Radians ?? 0, steps);
        var done = 0;
        Parallel.For(
            0, points.Count, new ParallelOptions { CancellationToken = cancel }, () => new HorizonProbe(grid, model),
            (i, _, probe) =>
            {
                table.Fill(i, points[i], probe);
                var count = Interlocked.Increment(ref done);
                if (count % 256 == 0) progress?.Report((double)count / points.Count);
                return probe;
            },
            _ => { });
        return table;
    }

    /// <summary>The airless altitude [rad] of a sun whose centre stands on the horizon of a point.</summary>
    /// <param name="azimuthRad">Outside the table's range the nearer end is taken.</param>
    internal double AirlessRad(int point, double azimuthRad)
    {
        var turn = azimuthRad - fromRad;
        turn -= Math.Tau * Math.Floor(turn / Math.Tau);
        var x = Math.Min(turn / (StepDeg * Math.PI / 180), steps - 1);
        var i = Math.Min((int)x, steps - 2);
        var at = (point * steps) + i;
        return UnitRad * (airless[at] + ((x - i) * (airless[at + 1] - airless[at])));
    }

    private void Fill(int point, Place place, HorizonProbe probe)
    {
        probe.StandAt(place.Point.Latitude.Radians, place.Point.Longitude.Radians, place.Height.Metres);
        for (var i = 0; i < steps; i++)
        {
            var horizon = probe.Find(fromRad + (i * StepDeg * Math.PI / 180), OpenRad);
            var apparentRad = horizon.Found ? horizon.AngleRad : OpenRad;
            airless[(point * steps) + i] = (short)Math.Round(Refraction.ToAirlessRad(apparentRad, place.Height.Metres) / UnitRad);
        }
    }
}
