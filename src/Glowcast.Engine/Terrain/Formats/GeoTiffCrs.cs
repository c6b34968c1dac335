using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>The coordinate system of a GeoTIFF.</summary>
/// <param name="Projection">Null where the coordinates are longitude and latitude.</param>
/// <param name="MetresPerUnit">What one unit of a projected coordinate is worth [m].</param>
internal sealed record GeoTiffCrs(string Name, MapProjection? Projection, double MetresPerUnit = 1)
{
    private const int Projected = 1;
    private const int Geographic = 2;
    private const int UserDefined = 32767;

    /// <exception cref="BadInputException">Any system but WGS84, ETRS89, NAD83, those of <see cref="NamedSystems"/>, and transverse Mercator, Lambert conformal and Albers given by their numbers.</exception>
    public static GeoTiffCrs Of(GeoKeys keys, string fileName)
    {
        var model = keys.Code(GeoKey.ModelType, keys.Has(GeoKey.ProjectedCrs) ? Projected : keys.Has(GeoKey.GeodeticCrs) ? Geographic : 0);
        return model switch
        {
            Projected => OfProjected(keys, fileName),
            Geographic => new GeoTiffCrs(BaseOf(keys, fileName).Name, null),
            _ => throw new BadInputException(fileName, $"Has a coordinate system of model type {model}; projected (1) and geographic (2) ones can be read."),
        };
    }

    private static GeoTiffCrs OfProjected(GeoKeys keys, string fileName)
    {
        var code = keys.Code(GeoKey.ProjectedCrs, UserDefined);
        if (NamedSystems.OfEpsg(code) is var (name, projection)) return MetresOnly(keys, new GeoTiffCrs(name, projection), fileName);
        if (code != UserDefined)
            throw Unknown(fileName, $"EPSG:{code}", keys.Text(GeoKey.ProjectedCitation, GeoKey.Citation));
        var (baseName, spheroid) = BaseOf(keys, fileName);
        if (UtmZone(keys.Code(GeoKey.Projection, UserDefined)) is var (zone, isNorth))
            return MetresOnly(keys, Utm(baseName, zone, isNorth, spheroid), fileName);
        return OfNumbers(keys, baseName, spheroid, fileName);
    }

    private static GeoTiffCrs OfNumbers(GeoKeys keys, string baseName, Spheroid spheroid, string fileName)
    {
        var metresPerUnit = LinearUnitM(keys, fileName);
        var numbers = new ProjectionNumbers(
            keys.Number(0, GeoKey.NaturalOriginLatitude, GeoKey.FalseOriginLatitude, GeoKey.CentreLatitude),
            keys.Number(0, GeoKey.NaturalOriginLongitude, GeoKey.FalseOriginLongitude, GeoKey.CentreLongitude))
        {
            Parallel1Deg = keys.Number(0, GeoKey.Parallel1),
            Parallel2Deg = keys.Number(0, GeoKey.Parallel2),
            Scale = keys.Number(1, GeoKey.ScaleAtNaturalOrigin, GeoKey.ScaleAtCentre),
            FalseEastingM = metresPerUnit * keys.Number(0, GeoKey.FalseEasting, GeoKey.FalseOriginEasting),
            FalseNorthingM = metresPerUnit * keys.Number(0, GeoKey.FalseNorthing, GeoKey.FalseOriginNorthing),
        };
        // Coordinate transformation codes of OGC 19-008r4, annex C.
        var projection = keys.Code(GeoKey.ProjectionMethod) switch
        {
            1 => MapProjection.TransverseMercator(numbers, spheroid),
            8 => MapProjection.LambertConformal(numbers, spheroid),
            9 when numbers.Scale == 1 => MapProjection.LambertConformal(
                numbers with { Parallel1Deg = numbers.OriginLatitudeDeg, Parallel2Deg = numbers.OriginLatitudeDeg }, spheroid),
            11 => MapProjection.Albers(numbers, spheroid),
            var method => throw Unknown(fileName, $"projection method {method}", keys.Text(GeoKey.ProjectedCitation, GeoKey.Citation)),
        };
        var name = keys.Text(GeoKey.ProjectedCitation, GeoKey.Citation) ?? $"{baseName} / {projection.Method}";
        return new GeoTiffCrs(name, projection, metresPerUnit);
    }

    private static (string Name, Spheroid Spheroid) BaseOf(GeoKeys keys, string fileName)
    {
        if (keys.Code(GeoKey.AngularUnits, 9102) is var unit and not (9102 or 9122))
            throw new BadInputException(fileName, $"Has angles in unit EPSG:{unit}; degrees can be read.");
        if (keys.Code(GeoKey.PrimeMeridian, 8901) is var meridian and not 8901)
            throw new BadInputException(fileName, $"Counts longitudes from meridian EPSG:{meridian}; those from Greenwich can be read.");
        var code = keys.Code(GeoKey.GeodeticCrs, UserDefined);
        return (code, keys.Code(GeoKey.GeodeticDatum)) switch
        {
            (4326, _) or (UserDefined, 6326) => ("WGS 84", Spheroid.Wgs84),
            (4258, _) or (UserDefined, 6258) => ("ETRS89", Spheroid.Grs80),
            (4171, _) => ("RGF93", Spheroid.Grs80),
            (4269, _) or (UserDefined, 6269) => ("NAD83", Spheroid.Grs80),
            (4617, _) => ("NAD83(CSRS)", Spheroid.Grs80),
            (6318, _) => ("NAD83(2011)", Spheroid.Grs80),
            _ => throw Unknown(fileName, code == UserDefined ? "a system of its own" : $"EPSG:{code}", keys.Text(GeoKey.GeodeticCitation, GeoKey.Citation)),
        };
    }

    private static (int Zone, bool IsNorth)? UtmZone(int projection) => projection switch
    {
        >= 16001 and <= 16060 => (projection - 16000, true),
        >= 16101 and <= 16160 => (projection - 16100, false),
        _ => null,
    };

    private static GeoTiffCrs Utm(string baseName, int zone, bool isNorth, Spheroid spheroid) =>
        new($"{baseName} / UTM zone {zone}{(isNorth ? 'N' : 'S')}", MapProjection.Utm(zone, isNorth, spheroid));

    private static GeoTiffCrs MetresOnly(GeoKeys keys, GeoTiffCrs crs, string fileName) => LinearUnitM(keys, fileName) == 1
        ? crs
        : throw new BadInputException(fileName, $"Says {crs.Name} and counts it in another unit than metres; the two contradict one another.");

    private static double LinearUnitM(GeoKeys keys, string fileName)
    {
        var code = keys.Code(GeoKey.LinearUnits, LengthUnits.Metre);
        var size = code == UserDefined ? keys.Number(0, GeoKey.LinearUnitSize) : LengthUnits.OfEpsg(code);
        return size is > 0.0001 and < 10_000 ? size.Value : throw new BadInputException(fileName, $"Counts its coordinates in unit EPSG:{code}; metres and feet can be read.");
    }

    private static BadInputException Unknown(string fileName, string what, string? citation) =>
        new(fileName, $"Is in {what}{(citation is null ? "" : $" ('{Shortened.To80(citation)}')")}, which cannot be read; WGS84, ETRS89 and NAD83, UTM and some national systems on them, and transverse Mercator, Lambert conformal and Albers given by their numbers can. Reproject it to longitude and latitude (EPSG:4326), or to the UTM zone it lies in.");
}
