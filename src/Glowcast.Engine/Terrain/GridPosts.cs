using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Where the posts of a grid stand: a regular net in geodetic latitude and longitude on WGS84.</summary>
public sealed record GridPosts
{
    // A grid's corner, written in decimal degrees, may miss the exact position by this share of a cell.
    private const double Slack = 1e-6;

    /// <param name="rows">At least 2, counted from north to south.</param>
    /// <param name="columns">At least 2, counted from west to east.</param>
    /// <param name="northDeg">Latitude of row 0.</param>
    /// <param name="westDeg">Longitude of column 0.</param>
    /// <param name="latitudeStepDeg">Between rows, positive.</param>
    /// <param name="longitudeStepDeg">Between columns, positive.</param>
    /// <exception cref="BadInputException">The net is too small, runs over a pole or once round the earth.</exception>
    public GridPosts(int rows, int columns, double northDeg, double westDeg, double latitudeStepDeg, double longitudeStepDeg)
    {
        var faults = new Faults();
        faults.InRange(rows, "rows", 2, int.MaxValue);
        faults.InRange(columns, "columns", 2, int.MaxValue);
        faults.Positive(latitudeStepDeg, "latitudeStepDeg", 10);
        faults.Positive(longitudeStepDeg, "longitudeStepDeg", 10);
        faults.InRange(northDeg, "northDeg", -90, 90);
        faults.InRange(westDeg, "westDeg", -360, 360);
        faults.ThrowIfAny();
        (Rows, Columns, NorthDeg, WestDeg) = (rows, columns, northDeg, westDeg);
        (LatitudeStepDeg, LongitudeStepDeg) = (latitudeStepDeg, longitudeStepDeg);
        if (SouthDeg < -90 - (Slack * latitudeStepDeg)) faults.Add("rows", $"{rows} rows of {latitudeStepDeg}° from latitude {northDeg} run beyond the south pole.");
        if (WidthDeg > 360) faults.Add("columns", $"{columns} columns of {longitudeStepDeg}° run more than once round the earth.");
        faults.ThrowIfAny();
    }

    public int Rows { get; }

    public int Columns { get; }

    public double NorthDeg { get; }

    public double WestDeg { get; }

    public double LatitudeStepDeg { get; }

    public double LongitudeStepDeg { get; }

    public double SouthDeg => NorthDeg - ((Rows - 1) * LatitudeStepDeg);

    public double WidthDeg => (Columns - 1) * LongitudeStepDeg;

    public double EastDeg => WestDeg + WidthDeg;

    public GeoPoint Centre => GeoPoint.FromDegrees((NorthDeg + SouthDeg) / 2, (WestDeg + EastDeg) / 2);

    /// <summary>The distance between rows at the middle of the grid: the size of the smallest ground it can show.</summary>
    public Length CellSize => Length.FromMetres(
        Wgs84.MeridianRadiusM(Centre.Latitude.Sin()) * double.DegreesToRadians(LatitudeStepDeg));

    /// <summary>The outermost posts belong to the grid.</summary>
    public bool Contains(GeoPoint point)
    {
        var (x, y) = ToCells(point);
        return x >= 0 && x <= Columns - 1 && y >= 0 && y <= Rows - 1;
    }

    /// <summary>Fractional column and row of a point; outside the grid they fall outside 0…columns−1 and 0…rows−1.</summary>
    public (double X, double Y) ToCells(GeoPoint point)
    {
        var east = point.LongitudeDeg - WestDeg;
        if (east < -Slack * LongitudeStepDeg) east += 360;
        if (east >= 360) east -= 360;
        return (Snap(east / LongitudeStepDeg, Columns - 1), Snap((NorthDeg - point.LatitudeDeg) / LatitudeStepDeg, Rows - 1));
    }

    /// <summary>The point at a fractional column and row.</summary>
    public GeoPoint ToPoint(double x, double y) =>
        GeoPoint.FromDegrees(Math.Clamp(NorthDeg - (y * LatitudeStepDeg), -90, 90), WestDeg + (x * LongitudeStepDeg));

    // Rounding must not push a point that stands on the outermost post out of the grid.
    private static double Snap(double cell, int last) =>
        cell < 0 && cell > -Slack ? 0 : cell > last && cell < last + Slack ? last : cell;
}
