using System.Numerics;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Field.Pictures;

/// <summary>Paints what a lookout sees at a moment: sky, ground in direct light and in shade through the haze, the deck as a sea.</summary>
internal sealed class RidgePainter
{
    // Koschmieder: at the visibility 2 % of the contrast is left.
    private static readonly double ContrastLeft = -Math.Log(0.02);
    private const double DeckToleranceM = 0.5;

    private readonly RidgeRaster raster;
    private readonly Scene scene;
    private readonly double visibilityM;
    private readonly float[] distanceM;
    private readonly Vector3[] slopes;

    public RidgePainter(RidgeRaster raster, Scene scene, Length visibility)
    {
        (this.raster, this.scene, visibilityM) = (raster, scene, visibility.Metres);
        distanceM = [.. from row in Enumerable.Range(0, raster.Rows) from column in Enumerable.Range(0, raster.Columns) select (float)(raster.At(column, row)?.DistanceM ?? 0)];
        slopes = GroundSlopes.Of(raster, distanceM);
    }

    /// <param name="chart">Null where the sun never rises far enough; all is then shade.</param>
    /// <param name="beam">The colour of direct light then; null where there is none.</param>
    public PixelImage At(LightChart? chart, Instant instant, Chromaticity? beam)
    {
        var sun = Sun.At(instant).SeenFrom(scene.Lookout);
        var altitude = Refraction.ToApparent(sun.AirlessAltitude, scene.Lookout.Height);
        var (plain, towards) = (SceneTones.At(altitude.Degrees), Towards(sun.Azimuth, altitude));
        var tones = beam is { } colour ? plain.InColour(colour) : plain;
        var map = new PatchMap(raster, scene);
        var light = chart is null ? new float[scene.Patches.Count] : PatchLights.At(chart, chart.Track.SecondsAt(instant));
        var image = new PixelImage(raster.Columns, raster.Rows);
        Parallel.For(0, raster.Rows, y =>
        {
            for (var x = 0; x < raster.Columns; x++)
            {
                var here = (y * raster.Columns) + x;
                image[x, y] = Rgb.Of(distanceM[here] == 0
                    ? SkyAt(tones, y)
                    : GroundAt(IsDeck(x, y) ? tones.OnCloud() : tones, towards, here, x, y, (float)map.At(x, y, distanceM[here], light)));
            }
        });
        return image;
    }

    private Vector3 SkyAt(SceneTones tones, int y) =>
        Vector3.Lerp(tones.SkyTop, tones.SkyFoot, (float)Math.Clamp((raster.TopDeg - raster.AltitudeDegOf(y)) / Math.Max(raster.TopDeg, raster.PixelDeg), 0, 1));

    private Vector3 GroundAt(SceneTones tones, Vector3 towards, int here, int x, int y, float light)
    {
        var facing = Math.Max(0, Vector3.Dot(slopes[here], towards));
        // Light of the sky comes from above; direct light by how squarely it falls.
        var sky = 0.6f + (0.5f * slopes[here].Z);
        var direct = light * (0.15f + (1.1f * MathF.Pow(facing, 1.5f)));
        var ground = ((tones.Shade * sky) + ((tones.Lit - (tones.Shade * 0.45f)) * direct)) * (1 - (0.22f * EdgeAt(x, y)));
        var haze = (float)(1 - Math.Exp(-ContrastLeft * distanceM[here] / visibilityM));
        return Vector3.Lerp(Vector3.Min(ground, new Vector3(255)), tones.Air, haze);
    }

    /// <summary>How clearly a line parts a pixel from what stands behind it: the farther that is, the clearer.</summary>
    private float EdgeAt(int x, int y)
    {
        var above = y > 0 ? distanceM[((y - 1) * raster.Columns) + x] : 0;
        return above == 0 ? 1 : Math.Clamp((MathF.Log(above / distanceM[(y * raster.Columns) + x]) - 0.08f) * 3, 0, 1);
    }

    private bool IsDeck(int x, int y) => scene.DeckTop is { } top && raster.At(x, y) is { } seen && seen.HeightM <= top.Metres + DeckToleranceM;

    private static Vector3 Towards(Azimuth azimuth, Angle altitude)
    {
        var (east, north) = Math.SinCos(azimuth.Radians);
        return new Vector3((float)(altitude.Cos() * east), (float)(altitude.Cos() * north), (float)altitude.Sin());
    }
}
