using System.Globalization;
using System.Text.Json;

namespace Glowcast.Cli.Tests;

/// <summary>The main job on real ground: from a lookout east of the Presidential Range, a winter dawn on its ridge.</summary>
public sealed class RealTileTests : IDisposable
{
    private const double LatitudeDeg = 44.2592;
    private const double LongitudeDeg = -71.2025;

    private readonly string folder = Directory.CreateTempSubdirectory("glowcast-").FullName;

    [FactNeeds<SharedTiles>]
    public async Task The_winter_dawn_is_one_window_and_single_points_of_the_crest_agree()
    {
        var forecast = (await Outcome.Of("forecast", "--plan", Plan(), "--grid", SharedTiles.Tile, "--json")).Json;

        var window = Assert.Single(forecast.GetProperty("windows").EnumerateArray());
        var opens = window.GetProperty("start").GetDateTimeOffset();
        // A pinned answer; the second route below is what shows that it is right.
        Assert.Equal(new DateTimeOffset(2026, 2, 14, 11, 45, 0, TimeSpan.Zero), opens, TimeSpan.FromMinutes(2));

        // The plan asks for direct sun alone, however weak: single points know nothing of how bright it is.
        // A second route that knows no columns and no windows: three points of the skyline. They are the topmost of a
        // crest band of which 60 % must be lit, so the sun reaches them before the window opens, but only just.
        var skyline = (await Outcome.Of(
            "skyline", "--grid", SharedTiles.Tile, "--latitude", Text(LatitudeDeg), "--longitude", Text(LongitudeDeg), "--span", "245..330", "--json")).Json;
        var lit = new List<DateTimeOffset>();
        foreach (var bearing in (double[])[265, 290, 315]) lit.Add(await NearlyWholeDiscAt(CrestPoint(skyline, bearing)));
        Assert.All(lit, moment => Assert.InRange(moment, opens.AddMinutes(-10), opens.AddMinutes(1)));
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    /// <summary>When 90 % of the disc is clear: a disc has that share above a level 0.687 of the way from its centre to its
    /// rim, and between the two the sun climbs evenly enough.</summary>
    private static async Task<DateTimeOffset> NearlyWholeDiscAt((double LatitudeDeg, double LongitudeDeg) crest)
    {
        var light = (await Outcome.Of(
            "light", "--grid", SharedTiles.Tile, "--target", $"{Text(crest.LatitudeDeg)},{Text(crest.LongitudeDeg)}", "--date", "2026-02-14",
            "--time-zone", "America/New_York", "--json")).Json;
        var (centre, whole) = (First(light, "centre"), First(light, "wholeDisc"));
        return centre + (0.687 * (whole - centre));
    }

    private static DateTimeOffset First(JsonElement light, string name) => light.GetProperty(name)[0].GetProperty("start").GetDateTimeOffset();

    /// <summary>The ground that stands highest near a bearing, on a sphere: good to a few metres over ten kilometres.</summary>
    private static (double LatitudeDeg, double LongitudeDeg) CrestPoint(JsonElement skyline, double bearingDeg)
    {
        const double metresPerDegree = 111_190;
        var column = skyline.GetProperty("columns").EnumerateArray().MinBy(column => Math.Abs(column.GetProperty("bearingDeg").GetDouble() - bearingDeg));
        var bearing = double.DegreesToRadians(column.GetProperty("bearingDeg").GetDouble());
        var distance = column.GetProperty("distanceM").GetDouble() / metresPerDegree;
        return (LatitudeDeg + (distance * Math.Cos(bearing)), LongitudeDeg + (distance * Math.Sin(bearing) / Math.Cos(double.DegreesToRadians(LatitudeDeg))));
    }

    private static string Text(double number) => number.ToString(CultureInfo.InvariantCulture);

    private string Plan()
    {
        var path = Path.Combine(folder, "plan.json");
        File.WriteAllText(path, """
            {
              "lookout": { "latitudeDeg": 44.2592, "longitudeDeg": -71.2025, "eyeHeightM": 1.7, "timeZone": "America/New_York" },
              "grids": ["N44W072.hgt"], "date": "2026-02-14",
              "span": { "fromDeg": 245, "toDeg": 330, "ridgeFromKm": 5, "verticalDeg": 12 },
              "camera": { "sensorWidthMm": 36, "sensorHeightMm": 24, "pixelsWide": 8256, "pixelsHigh": 5504 },
              "lens": { "focalLengthMm": 135, "aperture": 11 },
              "set": { "orientation": "portrait", "overlap": 0.4, "rowOverlap": 0.4, "rows": 2 },
              "thresholds": { "litStops": 0.000001, "crestLit": 0.6 }
            }
            """);
        return path;
    }
}
