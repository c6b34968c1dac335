using System.Text.Json.Nodes;
using Glowcast.Engine.Measures;

namespace Glowcast.Field.Exports;

/// <summary>Points and rays as GeoJSON (RFC 7946): longitude first, and lines cut in two where they cross the antimeridian.</summary>
/// <remarks>Heights are not written: the standard's are above the ellipsoid, a grid's above sea level; they stand in the properties.</remarks>
internal static class GeoJsonFile
{
    public static JsonObject Of(FieldMap map) => new()
    {
        ["type"] = "FeatureCollection",
        ["features"] = new JsonArray([.. map.Crests.Prepend(map.Lookout).Select(Feature), .. map.Rays.Select(Feature)]),
    };

    private static JsonObject Feature(MapPoint point) => Feature(
        new JsonObject { ["type"] = "Point", ["coordinates"] = Pair(point.Place.Point.LongitudeDeg, point.Place.Point.LatitudeDeg) },
        new JsonObject { ["name"] = point.Name, ["description"] = point.Description, ["heightM"] = Math.Round(point.Place.Height.Metres, 1) });

    private static JsonObject Feature(MapRay ray) => Feature(Line(ray), new JsonObject { ["name"] = ray.Name });

    private static JsonObject Feature(JsonObject geometry, JsonObject properties) =>
        new JsonObject { ["type"] = "Feature", ["geometry"] = geometry, ["properties"] = properties };

    private static JsonObject Line(MapRay ray)
    {
        var (from, to) = (ray.From, ray.To);
        if (Math.Abs(to.LongitudeDeg - from.LongitudeDeg) <= 180)
            return new JsonObject { ["type"] = "LineString", ["coordinates"] = new JsonArray(Pair(from), Pair(to)) };
        var edge = from.LongitudeDeg > 0 ? 180 : -180;
        var share = Math.Abs((edge - from.LongitudeDeg) / (to.LongitudeDeg + (2 * edge) - from.LongitudeDeg));
        var latitude = from.LatitudeDeg + (share * (to.LatitudeDeg - from.LatitudeDeg));
        return new JsonObject
        {
            ["type"] = "MultiLineString",
            ["coordinates"] = new JsonArray(new JsonArray(Pair(from), Pair(edge, latitude)), new JsonArray(Pair(-edge, latitude), Pair(to))),
        };
    }

    private static JsonArray Pair(GeoPoint point) => Pair(point.LongitudeDeg, point.LatitudeDeg);

    private static JsonArray Pair(double longitudeDeg, double latitudeDeg) => [Math.Round(longitudeDeg, 7), Math.Round(latitudeDeg, 7)];
}
