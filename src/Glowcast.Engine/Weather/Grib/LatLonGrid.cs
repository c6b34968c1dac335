using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>Even steps of latitude and longitude (template 3.0), also about a pole that was moved (3.1), and Gaussian rows (3.40).</summary>
/// <remarks>Steps are taken from the first and the last point: those in the header are rounded.</remarks>
internal sealed class LatLonGrid : GribGrid
{
    private readonly double firstLon;
    private readonly double stepI;
    private readonly double[]? rows;
    private readonly double firstLat;
    private readonly double stepJ;
    private readonly MovedPole? pole;
    private readonly bool turnsWinds;

    /// <param name="first">[°] of the first point, before the pole is moved back.</param>
    /// <param name="last">[°] of the last.</param>
    /// <param name="rows">Latitudes of the rows [°] where they are uneven.</param>
    public LatLonGrid(int template, ScanOrder order, byte[] section, (double Lat, double Lon) first, (double Lat, double Lon) last, double[]? rows, MovedPole? pole, bool windsAlongGrid)
        : base(template, order, section)
    {
        var span = order.RunsWestward ? Wrapped(first.Lon - last.Lon) : Wrapped(last.Lon - first.Lon);
        if (span < 1e-9 && order.Ni > 1) span = 360;
        (firstLat, firstLon, this.rows, this.pole) = (first.Lat, first.Lon, rows, pole);
        stepI = order.Ni > 1 ? (order.RunsWestward ? -span : span) / (order.Ni - 1) : 0;
        stepJ = order.Nj > 1 ? (last.Lat - first.Lat) / (order.Nj - 1) : 0;
        GoesRound = order.Ni > 1 && Math.Abs((Math.Abs(stepI) * order.Ni) - 360) < 0.05 * Math.Abs(stepI);
        // The last step closes the circle: header numbers are rounded.
        if (GoesRound) stepI = Math.Sign(stepI) * 360.0 / order.Ni;
        turnsWinds = windsAlongGrid && pole is not null;
        if (rows is null && order.Nj > 1 && stepJ == 0) throw new GribDamage("Its first and last row lie on the same latitude.");
    }

    public override bool GoesRound { get; }

    public override string Name => Template switch
    {
        1 => "rotated latitude and longitude",
        40 => "Gaussian latitude and longitude",
        _ => "latitude and longitude",
    };

    public override Length CellSize => Length.FromMetres(
        111_195 * Math.Min(Ni > 1 ? Math.Abs(stepI) * Math.Max(0.1, Math.Cos(LatitudeOf(Nj / 2.0) * Math.PI / 180)) : 1, Nj > 1 ? Math.Abs(LatitudeOf(Nj - 1) - firstLat) / (Nj - 1) : 1));

    public override GeoPoint PointAt(double i, double j)
    {
        var (latitude, longitude) = (Math.Clamp(LatitudeOf(j), -90, 90), firstLon + (i * stepI));
        return pole is { } moved ? moved.Back(latitude, longitude) : GeoPoint.FromDegrees(latitude, longitude);
    }

    public override double TurnRad(GeoPoint point) => turnsWinds ? pole!.Value.TurnRad(point) : 0;

    private protected override GridIndex? IndexOf(GeoPoint point)
    {
        var (latitude, longitude) = pole is { } moved ? moved.Away(point) : (point.LatitudeDeg, point.LongitudeDeg);
        return new GridIndex(ColumnOf(longitude), RowOf(latitude));
    }

    private double ColumnOf(double longitude)
    {
        if (stepI == 0) return Math.Abs(Wrapped(longitude - firstLon + 180) - 180) < 1e-6 ? 0 : double.NaN;
        var turned = stepI > 0 ? Wrapped(longitude - firstLon) : Wrapped(firstLon - longitude);
        var index = turned / Math.Abs(stepI);
        // A hair before the first column is on it, and not a whole turn behind it.
        return (360 - turned) / Math.Abs(stepI) < 1e-6 ? index - (360 / Math.Abs(stepI)) : index;
    }

    private double RowOf(double latitude)
    {
        if (rows is null) return stepJ == 0 ? (Math.Abs(latitude - firstLat) < 1e-6 ? 0 : double.NaN) : (latitude - firstLat) / stepJ;
        var falling = rows[0] > rows[^1];
        for (var (low, high) = (0, rows.Length - 1); ;)
        {
            if (high - low <= 1) return rows.Length == 1 ? (Math.Abs(latitude - rows[0]) < 1e-6 ? 0 : double.NaN) : low + ((latitude - rows[low]) / (rows[high] - rows[low]));
            var middle = (low + high) / 2;
            if (falling == rows[middle] >= latitude) low = middle;
            else high = middle;
        }
    }

    private double LatitudeOf(double j)
    {
        if (rows is null) return firstLat + (j * stepJ);
        var row = Math.Clamp((int)j, 0, Math.Max(0, rows.Length - 2));
        return rows.Length == 1 ? rows[0] : rows[row] + ((j - row) * (rows[row + 1] - rows[row]));
    }

    private static double Wrapped(double degrees) => degrees - (360 * Math.Floor(degrees / 360));
}

/// <summary>A pole moved elsewhere, so that an area lies about the equator (template 3.1).</summary>
/// <param name="SouthLat">Where the southern pole of the turned globe is [°].</param>
/// <param name="SouthLon">[°]</param>
internal readonly record struct MovedPole(double SouthLat, double SouthLon)
{
    private double TiltRad => (90 + SouthLat) * Math.PI / 180;

    /// <summary>From turned to true latitude and longitude.</summary>
    public GeoPoint Back(double latitude, double longitude)
    {
        var (x, y, z) = Unit(latitude, longitude);
        var (sin, cos) = Math.SinCos(TiltRad);
        return Point((x * cos) - (z * sin), y, (x * sin) + (z * cos), SouthLon);
    }

    /// <summary>From true to turned latitude and longitude [°].</summary>
    public (double Lat, double Lon) Away(GeoPoint point)
    {
        var (x, y, z) = Unit(point.LatitudeDeg, point.LongitudeDeg - SouthLon);
        var (sin, cos) = Math.SinCos(TiltRad);
        var turned = Point((x * cos) + (z * sin), y, (z * cos) - (x * sin), 0);
        return (turned.LatitudeDeg, turned.LongitudeDeg);
    }

    /// <summary>How far turned north lies clockwise of true north [rad], by a small step.</summary>
    public double TurnRad(GeoPoint point)
    {
        const double stepDeg = 1e-4;
        var (latitude, longitude) = Away(point);
        var ahead = Back(Math.Min(90, latitude + stepDeg), longitude);
        var east = Math.IEEERemainder(ahead.LongitudeDeg - point.LongitudeDeg, 360) * Math.Cos(point.LatitudeDeg * Math.PI / 180);
        return Math.Atan2(east, ahead.LatitudeDeg - point.LatitudeDeg);
    }

    private static (double X, double Y, double Z) Unit(double latitude, double longitude)
    {
        var (sinLat, cosLat) = Math.SinCos(latitude * Math.PI / 180);
        var (sinLon, cosLon) = Math.SinCos(longitude * Math.PI / 180);
        return (cosLat * cosLon, cosLat * sinLon, sinLat);
    }

    private static GeoPoint Point(double x, double y, double z, double turnDeg) =>
        GeoPoint.FromDegrees(Math.Asin(Math.Clamp(z, -1, 1)) * 180 / Math.PI, (Math.Atan2(y, x) * 180 / Math.PI) + turnDeg);
}
