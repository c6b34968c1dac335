using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Field.Magnetism;

namespace Glowcast.Field.Exports;

/// <summary>What of a forecast lies on a map: the lookout, the crest over each column of frames, and where the sweep begins and ends.</summary>
/// <param name="Declination">At the lookout.</param>
internal sealed record FieldMap(MapPoint Lookout, IReadOnlyList<MapPoint> Crests, IReadOnlyList<MapRay> Rays, Declination Declination)
{
    private const double RayWithoutCrestM = 20_000;

    public static FieldMap Of(LightForecast forecast, Declination declination)
    {
        var lookout = new MapPoint("Lookout", $"Eye at {forecast.Eye.Height.Metres:0} m. Sets up facing {forecast.Plan.Span}.", forecast.Eye);
        var crests = forecast.Scene is { } scene ? Columns(forecast).Select(column => CrestIn(scene, column)).OfType<MapPoint>().ToList() : [];
        var farthestM = forecast.Scene?.Patches.Where(patch => patch.Role == PatchRole.Crest).Select(patch => patch.Distance.Metres).DefaultIfEmpty(RayWithoutCrestM).Max() ?? RayWithoutCrestM;
        return new FieldMap(lookout, crests, [.. SweepEnds(forecast, farthestM)], declination);
    }

    /// <summary>The bearings of each column of frames; without a set the span alone.</summary>
    private static IEnumerable<(string Name, BearingSpan Bearings)> Columns(LightForecast forecast)
    {
        if (forecast.Set is not { Layout: var layout }) return [("the span", forecast.Plan.Span)];
        var half = layout.Across.Step / 2;
        return layout.Frames.Where(frame => frame.Row == 0).Select(frame => ($"column {frame.Column + 1}", new BearingSpan(frame.Bearing - half, frame.Bearing + half)));
    }

    private static MapPoint? CrestIn(Scene scene, (string Name, BearingSpan Bearings) column)
    {
        var crest = scene.Patches.Where(patch => patch.Role == PatchRole.Crest && column.Bearings.Contains(scene.View.Columns[patch.Column].Bearing)).ToList();
        if (crest.Count == 0) return null;
        var highest = crest.MaxBy(patch => patch.Top);
        var bearing = scene.View.Columns[highest.Column].Bearing;
        return new MapPoint(
            $"Crest in {column.Name}", $"On {bearing.Degrees:0.0}°, {highest.Distance.Kilometres:0.0} km away, {highest.Ground.Height.Metres:0} m high.", highest.Ground);
    }

    private static IEnumerable<MapRay> SweepEnds(LightForecast forecast, double lengthM)
    {
        var (first, last) = forecast.Set is { Layout: var layout }
            ? (layout.FrameAt(0, 0).Bearing, layout.FrameAt(0, layout.ColumnsWithSpares - 1).Bearing)
            : (forecast.Plan.Span.From, forecast.Plan.Span.To);
        yield return Ray("Leftmost frame", first);
        yield return Ray("Rightmost frame", last);

        MapRay Ray(string name, Azimuth bearing) => new(
            $"{name}, {bearing.Degrees:0.0}°", forecast.Eye.Point, new GroundLine(forecast.Eye.Point, bearing).At(lengthM));
    }
}

/// <summary>A place with a name.</summary>
internal sealed record MapPoint(string Name, string Description, Place Place);

/// <summary>A line of sight over the ground.</summary>
internal sealed record MapRay(string Name, GeoPoint From, GeoPoint To);
