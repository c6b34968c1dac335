using System.Globalization;
using System.Xml.Linq;
using Glowcast.Engine.Measures;

namespace Glowcast.Field.Exports;

/// <summary>Waypoints and rays as GPX 1.1 (topografix.com/GPX/1/1); children stand in the order its schema asks for.</summary>
internal static class GpxFile
{
    private static readonly XNamespace Gpx = "http://www.topografix.com/GPX/1/1";

    public static XElement Of(FieldMap map) => new(
        Gpx + "gpx", new XAttribute("version", "1.1"), new XAttribute("creator", "Glowcast"),
        Waypoint(map.Lookout, new XElement(Gpx + "magvar", N((Math.Round(map.Declination.Angle.Degrees, 2) + 360) % 360, 2))),
        map.Crests.Select(crest => Waypoint(crest)),
        map.Rays.Select(ray => new XElement(
            Gpx + "trk", new XElement(Gpx + "name", ray.Name), new XElement(Gpx + "trkseg", Point("trkpt", ray.From), Point("trkpt", ray.To)))));

    private static XElement Waypoint(MapPoint point, XElement? magneticVariation = null)
    {
        var made = Point("wpt", point.Place.Point);
        made.Add(new XElement(Gpx + "ele", N(point.Place.Height.Metres, 1)), magneticVariation, new XElement(Gpx + "name", point.Name), new XElement(Gpx + "desc", point.Description));
        return made;
    }

    private static XElement Point(string name, GeoPoint point) => new(
        Gpx + name, new XAttribute("lat", N(point.LatitudeDeg, 7)), new XAttribute("lon", N(point.LongitudeDeg, 7)));

    private static string N(double number, int digits) => Math.Round(number, digits).ToString(CultureInfo.InvariantCulture);
}
