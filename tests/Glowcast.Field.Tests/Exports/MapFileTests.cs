using System.Globalization;
using System.Text.RegularExpressions;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Field.Card;
using Glowcast.Field.Exports;
using Glowcast.Field.Magnetism;
using NodaTime;

namespace Glowcast.Field.Tests.Exports;

/// <summary>Waypoints and rays, opened by GDAL's reader.</summary>
public partial class MapFileTests
{
    private static readonly Engine.Forecast.LightForecast Forecast = Forecasts.ThatFits;

    [TheoryNeeds<Ogr>]
    [InlineData(".gpx")]
    [InlineData(".kml")]
    [InlineData(".geojson")]
    public async Task An_independent_reader_finds_the_lookout_the_crests_and_the_rays(string extension)
    {
        var read = await Ogr.ReadAsync(FieldFile.Write(Forecast, new CardChoices(), FieldFormat.Of(extension)!, default), extension);
        var points = Points().Matches(read).Select(point => (Longitude: Number(point, 1), Latitude: Number(point, 2))).ToList();
        var lookout = Forecast.Eye.Point;
        Assert.Contains(points, point => Math.Abs(point.Longitude - lookout.LongitudeDeg) < 1e-6 && Math.Abs(point.Latitude - lookout.LatitudeDeg) < 1e-6);
        Assert.True(points.Count > Forecast.Set!.Layout.Columns);
        Assert.Equal(2, Lines().Count(read));
        Assert.Contains("Leftmost frame", read, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_crest_is_the_highest_ridge_over_its_column_of_frames_and_lies_on_its_bearing()
    {
        var (scene, layout) = (Forecast.Scene!, Forecast.Set!.Layout);
        var map = FieldMap.Of(Forecast, Declination.ByHand(Angle.Zero, Forecast.Plan.Date!.Value));
        Assert.InRange(map.Crests.Count, layout.Columns, layout.ColumnsWithSpares);
        Assert.All(map.Crests, crest =>
        {
            var column = int.Parse(crest.Name.Split(' ')[^1], CultureInfo.InvariantCulture) - 1;
            var seen = scene.Patches.Where(patch => patch.Role == PatchRole.Crest
                && (layout.FrameAt(0, column).Bearing.TurnTo(scene.View.Columns[patch.Column].Bearing).Abs() <= layout.Across.Step / 2)).MaxBy(patch => patch.Top);
            Assert.Equal(seen.Ground, crest.Place);
        });
    }

    [Fact]
    public void Elements_of_GPX_stand_in_the_order_of_its_schema_with_values_that_it_allows()
    {
        // GPX 1.1 (topografix.com/GPX/1/1/gpx.xsd): gpxType, wptType and trkType are sequences; degreesType is 0 ≤ d < 360.
        var orders = new Dictionary<string, string[]>
        {
            ["gpx"] = ["metadata", "wpt", "rte", "trk", "extensions"],
            ["wpt"] = ["ele", "time", "magvar", "geoidheight", "name", "cmt", "desc", "src", "link", "sym", "type"],
            ["trk"] = ["name", "cmt", "desc", "src", "link", "number", "type", "extensions", "trkseg"],
            ["trkseg"] = ["trkpt", "extensions"],
            ["trkpt"] = ["ele", "time"],
        };
        foreach (var degrees in new[] { -0.001, -9.7, 0, 12.5 })
        {
            var gpx = GpxFile.Of(FieldMap.Of(Forecast, Declination.ByHand(Angle.FromDegrees(degrees), Forecast.Plan.Date!.Value)));
            foreach (var element in gpx.DescendantsAndSelf().Where(element => element.HasElements))
            {
                var places = element.Elements().Select(child => Array.IndexOf(orders[element.Name.LocalName], child.Name.LocalName)).ToList();
                Assert.DoesNotContain(-1, places);
                Assert.Equal(places.Order(), places);
            }
            Assert.InRange(double.Parse(gpx.Descendants().Single(element => element.Name.LocalName == "magvar").Value, CultureInfo.InvariantCulture), 0, 359.995);
        }
    }

    [Fact]
    public void A_ray_over_the_antimeridian_is_cut_in_two()
    {
        var ray = new MapRay("west to east", GeoPoint.FromDegrees(-17, 179.9), GeoPoint.FromDegrees(-16.8, -179.7));
        var map = new FieldMap(new MapPoint("", "", default), [], [ray], Declination.ByHand(Angle.Zero, new LocalDate(2026, 1, 1)));
        var line = GeoJsonFile.Of(map)["features"]![1]!["geometry"]!;
        Assert.Equal("MultiLineString", line["type"]!.GetValue<string>());
        // A quarter of the way lies before the meridian.
        Assert.Equal("[[[179.9,-17],[180,-16.95]],[[-180,-16.95],[-179.7,-16.8]]]", line["coordinates"]!.ToJsonString());
    }

    [Fact]
    public void The_table_has_a_row_for_every_exposure()
    {
        var rows = System.Text.Encoding.UTF8.GetString(FieldFile.Write(Forecast, new CardChoices { MagneticDeclination = Angle.FromDegrees(2) }, FieldFormat.Csv, default)).Split("\r\n");
        var exposures = Forecast.Set!.Clock.Exposures;
        Assert.Equal(exposures.Count + 2, rows.Length);
        // In the tenths of answers.
        Assert.Equal(
            exposures.Select(exposure => Rounded.ToTenths(Forecast.Start!.Value + exposure.Start).ToString("uuuu-MM-dd'T'HH:mm:ss.f'Z'", CultureInfo.InvariantCulture)),
            rows[1..^1].Select(row => row.Split(',')[10]));
        var last = rows[^2].Split(',');
        var frame = Forecast.Set.Layout.FrameAt(exposures[^1].Row, exposures[^1].Column);
        Assert.Equal(frame.Bearing.Degrees, double.Parse(last[6], CultureInfo.InvariantCulture), 0.001);
        Assert.Equal(frame.Bearing.Degrees - 2, double.Parse(last[7], CultureInfo.InvariantCulture), 0.001);
        Assert.Equal(exposures[^1].Start.TotalSeconds, double.Parse(last[9], CultureInfo.InvariantCulture), 0.001);
    }

    private static double Number(Match match, int group) => double.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"POINT (?:Z )?\((-?[0-9.]+) (-?[0-9.]+)")]
    private static partial Regex Points();

    [GeneratedRegex(@"(?:MULTI)?LINESTRING ")]
    private static partial Regex Lines();
}
