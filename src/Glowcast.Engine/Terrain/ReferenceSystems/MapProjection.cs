using Glowcast.Engine.Measures;
using ProjNet.CoordinateSystems;
using ProjNet.CoordinateSystems.Transformations;

namespace Glowcast.Engine.Terrain;

/// <summary>A map projection of the ellipsoid to eastings and northings in metres.</summary>
/// <remarks>The geodetic side is WGS84. ETRS89 and NAD83 are taken for it: they differ by less than two metres, far less
/// than a cell of the grids they come with. The equations are those of ProjNET.</remarks>
public sealed record MapProjection
{
    private readonly MathTransform forward;
    private readonly MathTransform inverse;

    private MapProjection(ProjectionMethod method, ProjectionNumbers numbers, Spheroid spheroid)
    {
        (Method, Numbers, Spheroid) = (method, numbers, spheroid);
        forward = TransformOf(method, numbers, spheroid);
        inverse = forward.Inverse();
    }

    public ProjectionMethod Method { get; }

    public ProjectionNumbers Numbers { get; }

    public Spheroid Spheroid { get; }

    /// <exception cref="BadInputException">Numbers that no such projection can have.</exception>
    public static MapProjection TransverseMercator(ProjectionNumbers numbers, Spheroid spheroid) =>
        Checked(ProjectionMethod.TransverseMercator, numbers, spheroid);

    /// <inheritdoc cref="TransverseMercator"/>
    /// <remarks>With two standard parallels; one that touches on a single parallel has it twice.</remarks>
    public static MapProjection LambertConformal(ProjectionNumbers numbers, Spheroid spheroid) =>
        Checked(ProjectionMethod.LambertConformal, numbers, spheroid);

    /// <inheritdoc cref="TransverseMercator"/>
    public static MapProjection Albers(ProjectionNumbers numbers, Spheroid spheroid) =>
        Checked(ProjectionMethod.Albers, numbers, spheroid);

    /// <summary>Universal transverse Mercator (NGA.STND.0037).</summary>
    /// <param name="zone">1 to 60.</param>
    public static MapProjection Utm(int zone, bool isNorth, Spheroid spheroid)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(zone, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(zone, 60);
        return TransverseMercator(
            new ProjectionNumbers(0, (6 * zone) - 183) { Scale = 0.9996, FalseEastingM = 500_000, FalseNorthingM = isNorth ? 0 : 10_000_000 }, spheroid);
    }

    /// <summary>Only of use near the projection's own region: far from it the series do not hold.</summary>
    public (double EastM, double NorthM) ToPlane(double latitudeDeg, double longitudeDeg)
    {
        // The shorter way round the earth, so that the date line is no edge.
        var east = Math.IEEERemainder(longitudeDeg - Numbers.OriginLongitudeDeg, 360);
        return forward.Transform(Numbers.OriginLongitudeDeg + east, latitudeDeg);
    }

    /// <inheritdoc cref="ToPlane"/>
    public (double LatitudeDeg, double LongitudeDeg) FromPlane(double eastM, double northM)
    {
        var (longitude, latitude) = inverse.Transform(eastM, northM);
        return (latitude, longitude);
    }

    private static MapProjection Checked(ProjectionMethod method, ProjectionNumbers numbers, Spheroid spheroid)
    {
        numbers.MustSuit(method);
        return new MapProjection(method, numbers, spheroid);
    }

    private static MathTransform TransformOf(ProjectionMethod method, ProjectionNumbers numbers, Spheroid spheroid)
    {
        var systems = new CoordinateSystemFactory();
        var ellipsoid = systems.CreateFlattenedSphere(spheroid.Name, spheroid.SemiMajorAxisM, spheroid.InverseFlattening, LinearUnit.Metre);
        var datum = systems.CreateHorizontalDatum(spheroid.Name, DatumType.HD_Geocentric, ellipsoid, null);
        var geographic = systems.CreateGeographicCoordinateSystem(
            spheroid.Name, AngularUnit.Degrees, datum, PrimeMeridian.Greenwich, new AxisInfo("Lon", AxisOrientationEnum.East), new AxisInfo("Lat", AxisOrientationEnum.North));
        var name = method switch
        {
            ProjectionMethod.TransverseMercator => "transverse_mercator",
            ProjectionMethod.LambertConformal => "lambert_conformal_conic_2sp",
            _ => "albers",
        };
        var projected = systems.CreateProjectedCoordinateSystem(
            name, geographic, systems.CreateProjection(name, name, numbers.Parameters(method)), LinearUnit.Metre,
            new AxisInfo("E", AxisOrientationEnum.East), new AxisInfo("N", AxisOrientationEnum.North));
        return new CoordinateTransformationFactory().CreateFromCoordinateSystems(geographic, projected).MathTransform;
    }

    public bool Equals(MapProjection? other) =>
        other is not null && Method == other.Method && Numbers == other.Numbers && Spheroid == other.Spheroid;

    public override int GetHashCode() => HashCode.Combine(Method, Numbers, Spheroid);

    public override string ToString() => $"{Method} {Numbers} {Spheroid.Name}";
}

/// <summary>The ellipsoid that a projection is defined on.</summary>
public sealed record Spheroid(string Name, double SemiMajorAxisM, double InverseFlattening)
{
    public static Spheroid Wgs84 { get; } = new("WGS 84", Measures.Wgs84.SemiMajorAxisM, 1 / Measures.Wgs84.Flattening);

    /// <summary>That of ETRS89 and NAD83 (Moritz, Journal of Geodesy 74, 2000).</summary>
    public static Spheroid Grs80 { get; } = new("GRS 1980", 6_378_137, 298.257222101);
}
