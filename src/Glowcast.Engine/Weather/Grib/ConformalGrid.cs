using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>Even steps in metres on a conformal map: Lambert (template 3.30), polar stereographic (3.20), Mercator (3.10).</summary>
/// <remarks>One family: a cone of constant n, whose ends are the plane (n = ±1) and the cylinder (n = 0). Formulas: J. P. Snyder,
/// Map Projections, USGS Professional Paper 1395 (1987), eq. 7-7, 14-15, 15-1 to 15-11, 21-33.</remarks>
internal sealed class ConformalGrid : GribGrid
{
    private readonly Cone cone;
    private readonly (double X, double Y) first;
    private readonly double stepXM;
    private readonly double stepYM;
    private readonly bool turnsWinds;

    public ConformalGrid(int template, ScanOrder order, byte[] section, Cone cone, GeoPoint first, (double X, double Y) stepM, bool windsAlongGrid)
        : base(template, order, section)
    {
        if (!(stepM.X > 0) || !(stepM.Y > 0)) throw new GribDamage($"Its steps of {stepM.X} m and {stepM.Y} m cannot be.");
        this.cone = cone;
        this.first = cone.ToPlane(first);
        if (!double.IsFinite(this.first.X) || !double.IsFinite(this.first.Y)) throw new GribDamage("Its first point has no place on its map.");
        (stepXM, stepYM) = (order.RunsWestward ? -stepM.X : stepM.X, order.RunsNorthward ? stepM.Y : -stepM.Y);
        turnsWinds = windsAlongGrid;
    }

    public override string Name => Template switch
    {
        10 => "Mercator",
        20 => "polar stereographic",
        _ => "Lambert conformal",
    };

    public override Length CellSize => Length.FromMetres(Math.Min(Math.Abs(stepXM), Math.Abs(stepYM)));

    public override GeoPoint PointAt(double i, double j) => cone.ToEarth(first.X + (i * stepXM), first.Y + (j * stepYM));

    public override double TurnRad(GeoPoint point) => turnsWinds ? cone.TurnRad(point) : 0;

    private protected override GridIndex? IndexOf(GeoPoint point)
    {
        var (x, y) = cone.ToPlane(point);
        var index = (x - first.X) / stepXM;
        // On a cylinder the same meridian comes again after a whole turn.
        if (cone.TurnM is { } turn && Math.Abs(index) > 1e-6 && index < 0) index += turn / Math.Abs(stepXM);
        return new GridIndex(index, (y - first.Y) / stepYM);
    }
}

/// <summary>A conformal projection by its cone.</summary>
internal sealed class Cone
{
    private readonly double eccentricity;
    private readonly double n;
    private readonly double scaleM;
    private readonly double middleLon;

    private Cone(EarthShape earth, double n, double scaleM, double middleLon)
    {
        (eccentricity, this.n, this.scaleM, this.middleLon) = (earth.Eccentricity, n, scaleM, middleLon);
        if (!double.IsFinite(n) || !double.IsFinite(scaleM) || scaleM == 0) throw new GribDamage("Its projection cannot be: its standard parallels do not fit it.");
    }

    /// <summary>The width of the whole map where it is a cylinder.</summary>
    public double? TurnM => n == 0 ? 2 * Math.PI * scaleM : null;

    public static Cone Lambert(EarthShape earth, double latin1, double latin2, double middleLon)
    {
        var (m1, t1, m2, t2) = (M(earth.Eccentricity, latin1), T(earth.Eccentricity, latin1), M(earth.Eccentricity, latin2), T(earth.Eccentricity, latin2));
        var n = Math.Abs(latin1 - latin2) < 1e-9 ? Math.Sin(latin1 * Math.PI / 180) : Math.Log(m1 / m2) / Math.Log(t1 / t2);
        if (Math.Abs(n) < 1e-6) throw new GribDamage($"Its Lambert projection with standard parallels {latin1}° and {latin2}° is no cone.");
        return new Cone(earth, n, earth.MajorM * m1 / (n * Math.Pow(t1, n)), middleLon);
    }

    /// <param name="trueLat">Where the scale is true, of the same sign as the pole.</param>
    public static Cone Polar(EarthShape earth, double trueLat, double middleLon)
    {
        var n = Math.Sign(trueLat);
        var (e, latitude) = (earth.Eccentricity, Math.Abs(trueLat));
        var ratio = latitude > 90 - 1e-9 ? 2 / Math.Sqrt(Math.Pow(1 + e, 1 + e) * Math.Pow(1 - e, 1 - e)) : M(e, latitude) / T(e, latitude);
        return new Cone(earth, n, n * earth.MajorM * ratio, middleLon);
    }

    public static Cone Mercator(EarthShape earth, double trueLat, double firstLon) =>
        new(earth, 0, earth.MajorM * M(earth.Eccentricity, trueLat), firstLon);

    public (double X, double Y) ToPlane(GeoPoint point)
    {
        var (t, eastDeg) = (T(eccentricity, point.LatitudeDeg), Math.IEEERemainder(point.LongitudeDeg - middleLon, 360));
        if (n == 0) return (scaleM * eastDeg * Math.PI / 180, -scaleM * Math.Log(t));
        var (rho, theta) = (scaleM * Math.Pow(t, n), n * eastDeg * Math.PI / 180);
        return (rho * Math.Sin(theta), -rho * Math.Cos(theta));
    }

    public GeoPoint ToEarth(double x, double y)
    {
        if (n == 0) return Point(Math.Exp(-y / scaleM), x / scaleM);
        var sign = Math.Sign(n);
        return Point(Math.Pow(sign * Math.Sqrt((x * x) + (y * y)) / scaleM, 1 / n), Math.Atan2(sign * x, -sign * y) / n);
    }

    /// <summary>The angle of the meridian of a place with the middle one on the map [rad].</summary>
    public double TurnRad(GeoPoint point) => n * Math.IEEERemainder(point.LongitudeDeg - middleLon, 360) * Math.PI / 180;

    private GeoPoint Point(double t, double eastRad)
    {
        var latitude = (Math.PI / 2) - (2 * Math.Atan(t));
        for (var round = 0; round < 8; round++)
        {
            var sin = eccentricity * Math.Sin(latitude);
            latitude = (Math.PI / 2) - (2 * Math.Atan(t * Math.Pow((1 - sin) / (1 + sin), eccentricity / 2)));
        }
        return GeoPoint.FromDegrees(Math.Clamp(latitude * 180 / Math.PI, -90, 90), middleLon + (eastRad * 180 / Math.PI));
    }

    private static double M(double eccentricity, double latitude)
    {
        var (sin, cos) = Math.SinCos(latitude * Math.PI / 180);
        return cos / Math.Sqrt(1 - (eccentricity * eccentricity * sin * sin));
    }

    private static double T(double eccentricity, double latitude)
    {
        var sin = eccentricity * Math.Sin(latitude * Math.PI / 180);
        return Math.Tan((Math.PI / 4) - (latitude * Math.PI / 360)) / Math.Pow((1 - sin) / (1 + sin), eccentricity / 2);
    }
}
