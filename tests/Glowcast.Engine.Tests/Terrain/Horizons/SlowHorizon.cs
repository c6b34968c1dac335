using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>The obvious way to a horizon, in small steps, to hold the fast one against.</summary>
internal static class SlowHorizon
{
    /// <summary>The greatest angle of the samples from one cell out to a distance or the grid's edge.</summary>
    public static (double AngleDeg, double DistanceM) Of(ElevationGrid grid, Place eye, Azimuth azimuth, double stepM, double toM = double.PositiveInfinity)
    {
        var arc = Walk(eye, azimuth);
        var best = (Angle: double.NegativeInfinity, Distance: double.NaN);
        for (var d = grid.Posts.CellSize.Metres; ; d += stepM)
        {
            var point = arc(d);
            if (d > toM || !grid.Contains(point)) return (double.RadiansToDegrees(best.Angle), best.Distance);
            var angle = Math.Atan((grid.HeightAt(point)!.Value - eye.Height).Metres / d) - (d * 0.87 / (2 * 6_371_000.0));
            if (angle > best.Angle) best = (angle, d);
        }
    }

    /// <summary>Great-circle steps on the sphere that osculates the ellipsoid along the way, 50 m at a time.</summary>
    private static Func<double, GeoPoint> Walk(Place eye, Azimuth azimuth)
    {
        const double Piece = 50;
        var nodes = new List<(double Lat, double Lon, double Az)> { (eye.Point.Latitude.Radians, eye.Point.Longitude.Radians, azimuth.Radians) };
        return d =>
        {
            while ((nodes.Count - 1) * Piece < d)
            {
                var (lat, lon, az) = nodes[^1];
                var middle = Slopes(lat + (Slopes(lat, az).Lat * Piece / 2), az + (Slopes(lat, az).Az * Piece / 2));
                nodes.Add((lat + (middle.Lat * Piece), lon + (middle.Lon * Piece), az + (middle.Az * Piece)));
            }
            var i = Math.Min((int)(d / Piece), nodes.Count - 2);
            var t = (d / Piece) - i;
            return GeoPoint.FromDegrees(
                double.RadiansToDegrees(nodes[i].Lat + (t * (nodes[i + 1].Lat - nodes[i].Lat))),
                double.RadiansToDegrees(nodes[i].Lon + (t * (nodes[i + 1].Lon - nodes[i].Lon))));
        };
    }

    private static (double Lat, double Lon, double Az) Slopes(double lat, double az)
    {
        var n = Wgs84.PrimeVerticalRadiusM(Math.Sin(lat));
        return (Math.Cos(az) / Wgs84.MeridianRadiusM(Math.Sin(lat)), Math.Sin(az) / (n * Math.Cos(lat)), Math.Tan(lat) * Math.Sin(az) / n);
    }
}
