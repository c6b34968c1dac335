using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Terrain;

/// <summary>The directions a table of horizons has: every whole step of azimuth at which the sun can stand on some day, and how
/// low and high a horizon is of interest there.</summary>
internal sealed class HorizonDirections
{
    /// <summary>Between two azimuths of the table.</summary>
    public const double StepDeg = 1;

    /// <summary>As many as a circle has.</summary>
    public const int Steps = (int)(360 / StepDeg);

    // Half the sun's disc, and what a straight line between two azimuths may miss.
    private const double MarginRad = Math.PI / 180;

    // No more than this does the air lift anything.
    private const double MostRefractionRad = 1.5 * Math.PI / 180;

    private readonly HorizonDirection[] directions;
    private readonly int[] places = new int[Steps + 1];
    private readonly List<(int Step, int First, int Count)> runs = [];

    /// <param name="mostDeclinationDeg">Of what may stand there: the sun, or the moon.</param>
    public HorizonDirections(double southernmostRad, double northernmostRad, double mostDeclinationDeg = SunReach.SunDeclinationDeg)
    {
        (SouthernmostRad, NorthernmostRad) = (southernmostRad, northernmostRad);
        var found = new List<HorizonDirection>();
        for (var step = 0; step < Steps; step++)
        {
            var azimuthRad = double.DegreesToRadians(step * StepDeg);
            var reach = SunReach.Towards(azimuthRad, southernmostRad, northernmostRad, mostDeclinationDeg);
            places[step] = reach is null ? -1 : found.Count;
            if (reach is { } sun) found.Add(new HorizonDirection(azimuthRad, sun.LowestRad - MarginRad, sun.HighestRad + MarginRad + MostRefractionRad));
        }
        places[Steps] = places[0];
        directions = [.. found];
        for (var step = 0; step < Steps; step++)
        {
            if (places[step] < 0) continue;
            if (step == 0 || places[step - 1] < 0) runs.Add((step, places[step], 0));
            runs[^1] = runs[^1] with { Count = runs[^1].Count + 1 };
        }
    }

    /// <summary>The belt of latitudes in which the points lie.</summary>
    public double SouthernmostRad { get; }

    public double NorthernmostRad { get; }

    public int Count => directions.Length;

    public HorizonDirection this[int index] => directions[index];

    public static HorizonDirections For(IReadOnlyList<Place> points, double mostDeclinationDeg = SunReach.SunDeclinationDeg) => points.Count == 0
        ? new HorizonDirections(0, 0, mostDeclinationDeg)
        : new HorizonDirections(points.Min(point => point.Point.Latitude.Radians), points.Max(point => point.Point.Latitude.Radians), mostDeclinationDeg);

    /// <summary>Steps of azimuth that follow one another, and the first of their directions.</summary>
    public IReadOnlyList<(int Step, int First, int Count)> Runs => runs;

    /// <summary>The directions on either side of an azimuth, −1 where the table has none, and how far it is from the first to the second.</summary>
    public (int Before, int After, double Share) Beside(double azimuthRad)
    {
        var steps = azimuthRad * (Steps / Math.Tau);
        if (steps is < 0 or >= Steps) steps -= Steps * Math.Floor(steps / Steps);
        var step = Math.Min((int)steps, Steps - 1);
        return (places[step], places[step + 1], steps - step);
    }
}

/// <summary>One direction of a table.</summary>
/// <param name="AzimuthRad">True [rad].</param>
/// <param name="FloorRad">No sun stands as low here as to be hidden by a horizon below this [rad].</param>
/// <param name="CeilingRad">And none as high as to be seen over one above this [rad].</param>
internal readonly record struct HorizonDirection(double AzimuthRad, double FloorRad, double CeilingRad);
