using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Where the posts of a grid stand: a regular net in geodetic latitude and longitude, or on the plane of a map
/// projection. Rows run from north to south and columns from west to east, in the net's own sense of the words.</summary>
/// <remarks>In a projected net columns do not run true north; directions are always taken on the ellipsoid.</remarks>
public sealed record GridPosts
{
    private const string UsualGeographic = "WGS 84";

    // A grid's corner, written in decimal degrees, may miss the exact position by this share of a cell.
    private const double Slack = 1e-6;

    private const double NearestToPoleDeg = 89;
    private const double WidestDeg = 60;

    // A projection must find its way back to within this share of a cell.
    private const double MostRoundTrip = 1e-3;

    private readonly GeoBox bounds;

    /// <summary>A net in latitude and longitude.</summary>
    /// <param name="rows">At least 2, counted from north to south.</param>
    /// <param name="columns">At least 2, counted from west to east.</param>
    /// <param name="northDeg">Latitude of row 0.</param>
    /// <param name="westDeg">Longitude of column 0.</param>
    /// <param name="latitudeStepDeg">Between rows, positive.</param>
    /// <param name="longitudeStepDeg">Between columns, positive.</param>
    /// <param name="crs">The name of the geographic system; any that is taken for WGS84.</param>
    /// <exception cref="BadInputException">The net is too small, comes too near a pole or reaches too far round the earth.</exception>
    public GridPosts(int rows, int columns, double northDeg, double westDeg, double latitudeStepDeg, double longitudeStepDeg, string crs = UsualGeographic)
    {
        var faults = new Faults();
        faults.InRange(rows, "rows", 2, int.MaxValue);
        faults.InRange(columns, "columns", 2, int.MaxValue);
        faults.Positive(latitudeStepDeg, "latitudeStepDeg", 10);
        faults.Positive(longitudeStepDeg, "longitudeStepDeg", 10);
        faults.InRange(northDeg, "northDeg", -90, 90);
        faults.InRange(westDeg, "westDeg", -360, 360);
        faults.ThrowIfAny();
        (Rows, Columns, Top, Left, RowStep, ColumnStep, Crs) = (rows, columns, northDeg, westDeg, latitudeStepDeg, longitudeStepDeg, crs);
        bounds = new GeoBox(northDeg, northDeg - ((rows - 1) * latitudeStepDeg), westDeg, westDeg + ((columns - 1) * longitudeStepDeg));
        if (SouthDeg < -90 - (Slack * latitudeStepDeg)) faults.Add("rows", $"{rows} rows of {latitudeStepDeg}° from latitude {northDeg} run beyond the south pole.");
        else if (northDeg > NearestToPoleDeg || SouthDeg < -NearestToPoleDeg) faults.Add("rows", $"Reaches from latitude {SouthDeg} to {northDeg}; bearings lose their meaning at the poles, and grids may reach to {NearestToPoleDeg}° north and south.");
        if (EastDeg - WestDeg > WidestDeg) faults.Add("columns", $"Reaches over {EastDeg - WestDeg}° of longitude; at most {WidestDeg}° can be seen from one place. Cut the grid to the country around the lookout.");
        faults.ThrowIfAny();
        CellSize = Length.FromMetres(Wgs84.MeridianRadiusM(Centre.Latitude.Sin()) * double.DegreesToRadians(latitudeStepDeg));
    }

    /// <summary>A net on the plane of a map projection.</summary>
    /// <param name="rows">At least 2, counted from north to south.</param>
    /// <param name="columns">At least 2, counted from west to east.</param>
    /// <param name="northM">Northing of row 0.</param>
    /// <param name="westM">Easting of column 0.</param>
    /// <param name="rowStepM">Between rows, positive.</param>
    /// <param name="columnStepM">Between columns, positive.</param>
    /// <param name="crs">The name of the projected system.</param>
    /// <exception cref="BadInputException">The net is too small, or lies where the projection does not hold.</exception>
    public GridPosts(int rows, int columns, double northM, double westM, double rowStepM, double columnStepM, MapProjection projection, string crs)
    {
        ArgumentNullException.ThrowIfNull(projection);
        var faults = new Faults();
        faults.InRange(rows, "rows", 2, int.MaxValue);
        faults.InRange(columns, "columns", 2, int.MaxValue);
        faults.Positive(rowStepM, "rowStepM", 100_000);
        faults.Positive(columnStepM, "columnStepM", 100_000);
        faults.InRange(northM, "northM", -1e8, 1e8);
        faults.InRange(westM, "westM", -1e8, 1e8);
        faults.ThrowIfAny();
        (Rows, Columns, Top, Left, RowStep, ColumnStep, Crs) = (rows, columns, northM, westM, rowStepM, columnStepM, crs);
        Projection = projection;
        CellSize = Length.FromMetres(rowStepM);
        MustReturn();
        bounds = GeoBox.Around(Centre, Rim().Select(cell => ToPoint(cell.X, cell.Y)));
    }

    /// <summary>All of them.</summary>
    public long Count => (long)Rows * Columns;

    public int Rows { get; }

    public int Columns { get; }

    /// <summary>Null where the net is one of latitude and longitude.</summary>
    public MapProjection? Projection { get; }

    /// <summary>The coordinate system by name.</summary>
    public string Crs { get; }

    /// <summary>The northernmost latitude; of all points on the outermost posts where the net is projected.</summary>
    public double NorthDeg => bounds.NorthDeg;

    /// <inheritdoc cref="NorthDeg"/>
    public double SouthDeg => bounds.SouthDeg;

    /// <summary>The westernmost longitude; of all points on the outermost posts where the net is projected.</summary>
    public double WestDeg => bounds.WestDeg;

    /// <summary>Not less than the western one: it runs on past 180° where the net crosses the date line.</summary>
    public double EastDeg => bounds.EastDeg;

    /// <summary>Between rows; null where the net is projected.</summary>
    public double? LatitudeStepDeg => Projection is null ? RowStep : null;

    /// <summary>Between columns; null where the net is projected.</summary>
    public double? LongitudeStepDeg => Projection is null ? ColumnStep : null;

    public GeoPoint Centre => ToPoint((Columns - 1) / 2.0, (Rows - 1) / 2.0);

    /// <summary>The distance between rows at the middle of the grid: the size of the smallest ground it can show.</summary>
    public Length CellSize { get; }

    /// <summary>Northing or latitude of row 0 [m or °].</summary>
    internal double Top { get; }

    /// <summary>Easting or longitude of column 0 [m or °].</summary>
    internal double Left { get; }

    /// <summary>Between rows [m or °].</summary>
    internal double RowStep { get; }

    /// <summary>Between columns [m or °].</summary>
    internal double ColumnStep { get; }

    /// <summary>The outermost posts belong to the grid.</summary>
    public bool Contains(GeoPoint point)
    {
        // Far from its region a projection may put a point anywhere.
        if (Projection is not null && !bounds.IsNear(point)) return false;
        var (x, y) = ToCells(point);
        return x >= 0 && x <= Columns - 1 && y >= 0 && y <= Rows - 1;
    }

    /// <summary>Fractional column and row of a point; outside the grid they fall outside 0…columns−1 and 0…rows−1.</summary>
    public (double X, double Y) ToCells(GeoPoint point)
    {
        if (Projection is not null)
        {
            var (x, y) = ProjectedCells(point.LatitudeDeg, point.LongitudeDeg);
            return (Snap(x, Columns - 1), Snap(y, Rows - 1));
        }
        var east = point.LongitudeDeg - Left;
        if (east < -Slack * ColumnStep) east += 360;
        if (east >= 360) east -= 360;
        return (Snap(east / ColumnStep, Columns - 1), Snap((Top - point.LatitudeDeg) / RowStep, Rows - 1));
    }

    /// <summary>The point at a fractional column and row.</summary>
    public GeoPoint ToPoint(double x, double y)
    {
        var (across, up) = (Left + (x * ColumnStep), Top - (y * RowStep));
        if (Projection is null) return GeoPoint.FromDegrees(Math.Clamp(up, -90, 90), across);
        var (latitude, longitude) = Projection.FromPlane(across, up);
        return GeoPoint.FromDegrees(latitude, longitude);
    }

    /// <summary>As <see cref="ToCells"/>, but without a break at the net's own edges: it breaks on the far side of the earth.</summary>
    internal (double X, double Y) CellsNear(GeoPoint point)
    {
        if (Projection is not null) return ProjectedCells(point.LatitudeDeg, point.LongitudeDeg);
        var halfWidth = (EastDeg - WestDeg) / 2;
        var east = Math.IEEERemainder(point.LongitudeDeg - (WestDeg + halfWidth), 360) + halfWidth;
        return (east / ColumnStep, (Top - point.LatitudeDeg) / RowStep);
    }

    /// <summary>Whether a point lies in the net or not far from it.</summary>
    internal bool IsNear(GeoPoint point) => bounds.IsNear(point);

    /// <inheritdoc cref="GeoBox.Rim"/>
    internal IEnumerable<(double X, double Y)> Rim() => GeoBox.Rim(Rows, Columns);

    /// <summary>The same net, of another extent.</summary>
    /// <param name="left">Columns added in the west; fewer where negative.</param>
    /// <param name="top">Rows added in the north; fewer where negative.</param>
    internal GridPosts Extended(int left, int top, int rows, int columns)
    {
        var (up, across) = (Top + (top * RowStep), Left - (left * ColumnStep));
        return Projection is null
            ? new GridPosts(rows, columns, up, across, RowStep, ColumnStep, Crs)
            : new GridPosts(rows, columns, up, across, RowStep, ColumnStep, Projection, Crs);
    }

    internal (double X, double Y) ProjectedCells(double latitudeDeg, double longitudeDeg)
    {
        var (east, north) = Projection!.ToPlane(latitudeDeg, longitudeDeg);
        return ((east - Left) / ColumnStep, (Top - north) / RowStep);
    }

    private void MustReturn()
    {
        foreach (var (x, y) in Rim())
        {
            var (latitude, longitude) = Projection!.FromPlane(Left + (x * ColumnStep), Top - (y * RowStep));
            var (backX, backY) = Math.Abs(latitude) <= 90 && double.IsFinite(longitude) ? ProjectedCells(latitude, longitude) : (double.NaN, double.NaN);
            if (Math.Abs(backX - x) < MostRoundTrip && Math.Abs(backY - y) < MostRoundTrip) continue;
            throw new BadInputException("grid", $"Its net of {Rows} × {Columns} posts reaches to {Left + (x * ColumnStep):0} m east, {Top - (y * RowStep):0} m north, where {Crs} does not hold.");
        }
    }

    // Rounding must not push a point that stands on the outermost post out of the grid.
    private static double Snap(double cell, int last) =>
        cell < 0 && cell > -Slack ? 0 : cell > last && cell < last + Slack ? last : cell;
}
