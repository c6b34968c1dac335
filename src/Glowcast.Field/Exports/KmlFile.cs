using System.Globalization;
using System.Xml.Linq;
using Glowcast.Engine.Measures;

namespace Glowcast.Field.Exports;

/// <summary>Placemarks and rays as KML 2.2 (OGC 07-147). Heights are those of the grid, above sea level.</summary>
internal static class KmlFile
{
    private static readonly XNamespace Kml = "http://www.opengis.net/kml/2.2";

    public static XElement Of(FieldMap map, string title) => new(
        Kml + "kml",
        new XElement(
            Kml + "Document", new XElement(Kml + "name", title),
            map.Crests.Prepend(map.Lookout).Select(Placemark),
            map.Rays.Select(Placemark)));

    private static XElement Placemark(MapPoint point) => new(
        Kml + "Placemark", new XElement(Kml + "name", point.Name), new XElement(Kml + "description", point.Description),
        new XElement(Kml + "Point", new XElement(Kml + "altitudeMode", "absolute"), new XElement(Kml + "coordinates", $"{Pair(point.Place.Point)},{N(point.Place.Height.Metres, 1)}")));

    private static XElement Placemark(MapRay ray) => new(
        Kml + "Placemark", new XElement(Kml + "name", ray.Name),
        new XElement(Kml + "LineString", new XElement(Kml + "tessellate", 1), new XElement(Kml + "coordinates", $"{Pair(ray.From)} {Pair(ray.To)}")));

    private static string Pair(GeoPoint point) => $"{N(point.LongitudeDeg, 7)},{N(point.LatitudeDeg, 7)}";

    private static string N(double number, int digits) => Math.Round(number, digits).ToString(CultureInfo.InvariantCulture);
}
