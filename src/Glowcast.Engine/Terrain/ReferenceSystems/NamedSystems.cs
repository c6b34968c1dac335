namespace Glowcast.Engine.Terrain;

/// <summary>Projected coordinate systems that files name by their EPSG number only.</summary>
/// <remarks>Figures: EPSG Geodetic Parameter Dataset, version 10. Their geographic sides (ETRS89, NAD83, GDA94, GDA2020,
/// NZGD2000 and their national realisations) lie on the GRS 1980 ellipsoid and within two metres of WGS84, for which they
/// are taken. Systems that need a shift of datum (Bessel, Airy, Clarke ellipsoids) are not here.</remarks>
internal static class NamedSystems
{
    private static readonly Dictionary<int, (string Name, ProjectionMethod Method, ProjectionNumbers Numbers)> ByEpsg = new()
    {
        [2154] = Lambert("RGF93 / Lambert-93", 46.5, 3, 49, 44, 700_000, 6_600_000),
        [2180] = Mercator("ETRF2000-PL / CS92", 0, 19, 0.9993, 500_000, -5_300_000),
        [2193] = Mercator("NZGD2000 / New Zealand Transverse Mercator 2000", 0, 173, 0.9996, 1_600_000, 10_000_000),
        [3005] = Albers("NAD83 / BC Albers", 45, -126, 50, 58.5, 1_000_000, 0),
        [3006] = Mercator("SWEREF99 TM", 0, 15, 0.9996, 500_000, 0),
        [3034] = Lambert("ETRS89 / LCC Europe", 52, 10, 35, 65, 4_000_000, 2_800_000),
        [3057] = Lambert("ISN93 / Lambert 1993", 65, -19, 64.25, 65.75, 500_000, 500_000),
        [3067] = Mercator("ETRS89 / TM35FIN", 0, 27, 0.9996, 500_000, 0),
        [3111] = Lambert("GDA94 / Vicgrid", -37, 145, -36, -38, 2_500_000, 2_500_000),
        [3112] = Lambert("GDA94 / Geoscience Australia Lambert", 0, 134, -18, -36, 0, 0),
        [3310] = Albers("NAD83 / California Albers", 0, -120, 34, 40.5, 0, -4_000_000),
        [3347] = Lambert("NAD83 / Statistics Canada Lambert", 63.390675, -(91 + (52 / 60.0)), 49, 77, 6_200_000, 3_000_000),
        [3577] = Albers("GDA94 / Australian Albers", 0, 132, -18, -36, 0, 0),
        [3763] = Mercator("ETRS89 / Portugal TM06", 39 + (40 / 60.0) + (5.73 / 3600), -(8 + (7 / 60.0) + (59.19 / 3600)), 1, 0, 0),
        [3765] = Mercator("HTRS96 / Croatia TM", 0, 16.5, 0.9999, 500_000, 0),
        [3794] = Mercator("Slovenia 1996 / Slovene National Grid", 0, 15, 0.9999, 500_000, -5_000_000),
        [3978] = Lambert("NAD83 / Canada Atlas Lambert", 49, -95, 49, 77, 0, 0),
        [3979] = Lambert("NAD83(CSRS) / Canada Atlas Lambert", 49, -95, 49, 77, 0, 0),
        [4647] = Mercator("ETRS89 / UTM zone 32N (zE-N)", 0, 9, 0.9996, 32_500_000, 0),
        [5070] = Albers("NAD83 / Conus Albers", 23, -96, 29.5, 45.5, 0, 0),
        [5650] = Mercator("ETRS89 / UTM zone 33N (zE-N)", 0, 15, 0.9996, 33_500_000, 0),
        [6350] = Albers("NAD83(2011) / Conus Albers", 23, -96, 29.5, 45.5, 0, 0),
    };

    // NAD83(CSRS) has its zones, from the seventh on, scattered over the numbers.
    private static readonly int[] CsrsFromZone7 = [3154, 3155, 3156, 3157, 2955, 2956, 2957, 3158, 3159, 3160, 2958, 2959, 2960, 2961, 2962, 3761];

    /// <summary>Null where the number is not known here.</summary>
    public static (string Name, MapProjection Projection)? OfEpsg(int code)
    {
        if (UtmOf(code) is var (datum, zone, isNorth))
            return ($"{datum} / UTM zone {zone}{(isNorth ? 'N' : 'S')}", MapProjection.Utm(zone, isNorth, datum == "WGS 84" ? Spheroid.Wgs84 : Spheroid.Grs80));
        if (!ByEpsg.TryGetValue(code, out var system)) return null;
        return (system.Name, system.Method switch
        {
            ProjectionMethod.TransverseMercator => MapProjection.TransverseMercator(system.Numbers, Spheroid.Grs80),
            ProjectionMethod.LambertConformal => MapProjection.LambertConformal(system.Numbers, Spheroid.Grs80),
            _ => MapProjection.Albers(system.Numbers, Spheroid.Grs80),
        });
    }

    private static (string Datum, int Zone, bool IsNorth)? UtmOf(int code) => code switch
    {
        >= 32601 and <= 32660 => ("WGS 84", code - 32600, true),
        >= 32701 and <= 32760 => ("WGS 84", code - 32700, false),
        >= 25828 and <= 25838 => ("ETRS89", code - 25800, true),
        >= 26901 and <= 26923 => ("NAD83", code - 26900, true),
        >= 6330 and <= 6348 => ("NAD83(2011)", code - 6329, true),
        >= 28348 and <= 28358 => ("GDA94", code - 28300, false),
        >= 7846 and <= 7859 => ("GDA2020", code - 7800, false),
        _ when Array.IndexOf(CsrsFromZone7, code) is >= 0 and var at => ("NAD83(CSRS)", at + 7, true),
        _ => null,
    };

    private static (string, ProjectionMethod, ProjectionNumbers) Mercator(string name, double latitude, double longitude, double scale, double east, double north) =>
        (name, ProjectionMethod.TransverseMercator, new ProjectionNumbers(latitude, longitude) { Scale = scale, FalseEastingM = east, FalseNorthingM = north });

    private static (string, ProjectionMethod, ProjectionNumbers) Lambert(
        string name, double latitude, double longitude, double parallel1, double parallel2, double east, double north) =>
        (name, ProjectionMethod.LambertConformal, Conical(latitude, longitude, parallel1, parallel2, east, north));

    private static (string, ProjectionMethod, ProjectionNumbers) Albers(
        string name, double latitude, double longitude, double parallel1, double parallel2, double east, double north) =>
        (name, ProjectionMethod.Albers, Conical(latitude, longitude, parallel1, parallel2, east, north));

    private static ProjectionNumbers Conical(double latitude, double longitude, double parallel1, double parallel2, double east, double north) =>
        new(latitude, longitude) { Parallel1Deg = parallel1, Parallel2Deg = parallel2, FalseEastingM = east, FalseNorthingM = north };
}
