namespace Glowcast.Field.Exports;

/// <summary>A kind of file that a forecast can be taken along as.</summary>
/// <param name="Extension">Of the file's name, with its dot.</param>
public sealed record FieldFormat(string Extension, string MediaType, string Description)
{
    public static readonly FieldFormat Card = new(".html", "text/html; charset=utf-8", "the field card");
    public static readonly FieldFormat Calendar = new(".ics", "text/calendar; charset=utf-8", "a calendar event with alarms");
    public static readonly FieldFormat Gpx = new(".gpx", "application/gpx+xml", "waypoints and rays");
    public static readonly FieldFormat GeoJson = new(".geojson", "application/geo+json", "points and rays");
    public static readonly FieldFormat Kml = new(".kml", "application/vnd.google-earth.kml+xml", "placemarks and rays");
    public static readonly FieldFormat Csv = new(".csv", "text/csv; charset=utf-8", "every frame in a table");
    public static readonly FieldFormat Png = new(".png", "image/png", "ridge picture and light chart as pixels");
    public static readonly FieldFormat Svg = new(".svg", "image/svg+xml", "ridge picture and light chart as a drawing");

    public static IReadOnlyList<FieldFormat> All { get; } = [Card, Calendar, Gpx, GeoJson, Kml, Csv, Png, Svg];

    /// <returns>Null where no format has that extension; upper case will do.</returns>
    public static FieldFormat? Of(string extension) => All.FirstOrDefault(format => format.Extension.Equals(extension, StringComparison.OrdinalIgnoreCase));
}
