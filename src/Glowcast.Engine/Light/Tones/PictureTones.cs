using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>How bright the ground in the picture is at one moment, piece by piece, as the camera has it.</summary>
/// <remarks>
/// L₀ = ρ/π (beam × share of disc × max(0, n·s) + sky × sky view + light sent back by the ground around × (1 − sky view)); L = L₀ t + L_air (1 − t) to each piece's own
/// distance (docs/model.md, L17). The sun's direction is each piece's own, its beam that of the piece's height under the sun of the median crest. The
/// ground around is taken to be as bright, on average, as what the picture shows. The sky itself is not among them.
/// </remarks>
public sealed class PictureTones
{
    // So many bearings are asked which part of the air before them is in the sun; those between take the nearest one's.
    private const int MostPaths = 24;

    private PictureTones(Instant at, IReadOnlyList<Tone> ground, double skyCd, Chromaticity beam) => (At, Ground, SkyCd, BeamColour) = (at, ground, skyCd, beam);

    public Instant At { get; }

    /// <summary>In the order of the scene's patches; those that take no part of the picture have no weight.</summary>
    public IReadOnlyList<Tone> Ground { get; }

    /// <summary>The sky at the horizon behind the ridge [cd/m²].</summary>
    public double SkyCd { get; }

    public Chromaticity BeamColour { get; }

    /// <param name="ridge">How bright the ridge is through the day.</param>
    public static PictureTones Of(LightChart chart, Instant at, RidgeBrightness ridge, Length visibility, Surfaces surfaces)
    {
        ArgumentNullException.ThrowIfNull(chart);
        ArgumentNullException.ThrowIfNull(ridge);
        ArgumentNullException.ThrowIfNull(surfaces);
        var scene = chart.Scene;
        var seconds = chart.Track.SecondsAt(at);
        var onRidge = ridge.At(at);
        var sun = chart.Track.EarthFixedAu(seconds);
        var beam = ridge.BeamByHeightAt(seconds, scene.Patches.Min(patch => patch.Ground.Height.Metres), scene.Patches.Max(patch => patch.Ground.Height.Metres));
        var lights = scene.Patches.Select((_, i) => Direct(i)).ToArray();
        var around = SentBack();
        var air = Airlight.Under(onRidge.DiffuseLux, visibility);
        var paths = PathsInSun(chart, seconds, air);
        return new PictureTones(at, [.. scene.Patches.Select((_, i) => ToneOf(i))], air.HorizonCd, onRidge.DirectColour);

        GroundLight Direct(int i)
        {
            var (patch, facing) = (scene.Patches[i], ToneFacing.Of(scene));
            var cos = facing.Normal(i).CosTo(GroundFacing.ApparentSun(patch.Ground, sun));
            return GroundLight.Of(beam.Lux(patch.Ground.Height.Metres), chart.DiscShareAt(i, seconds), cos, onRidge.DiffuseLux, facing.SkyViewOf(i));
        }

        // On average, of all that the picture shows.
        double SentBack()
        {
            var (sum, weights) = (0.0, 0.0);
            for (var i = 0; i < lights.Length; i++)
            {
                var weight = WeightOf(i);
                sum += weight * ReflectanceOf(i) * lights[i].TotalLux;
                weights += weight;
            }
            return weights > 0 ? sum / weights : 0;
        }

        Tone ToneOf(int i)
        {
            var patch = scene.Patches[i];
            var light = lights[i] with { ReflectedLux = around * (1 - ToneFacing.Of(scene).SkyViewOf(i)) };
            var bareCd = light.LuminanceCd(ReflectanceOf(i));
            return new Tone(
                WeightOf(i), light, ReflectanceOf(i), patch.Distance.Metres, air.InPartShade(paths[patch.Column]).Seen(bareCd, patch.Distance),
                air.Contrast(bareCd, patch.Distance), patch.Role);
        }

        double ReflectanceOf(int i) => surfaces.Of(scene.Patches[i], scene.IsDeck(scene.Patches[i]));

        double WeightOf(int i) => Math.Max(0, scene.View.ColumnWidth.Radians * (scene.Patches[i].Top.Sin() - scene.Patches[i].Bottom.Sin()));
    }

    // The share of the airlight before the farthest ground of each column that comes from air in the sun.
    private static double[] PathsInSun(LightChart chart, double seconds, Airlight air)
    {
        var scene = chart.Scene;
        var farthest = new GroundPatch?[scene.Columns];
        foreach (var patch in scene.Patches)
            if (farthest[patch.Column] is not { } other || other.Distance < patch.Distance) farthest[patch.Column] = patch;
        var sight = new SightAir(scene.Lookout, new SunOverGround(chart.Track, scene.Grid, scene.Model), scene.Model, seconds);
        var every = Math.Max(1, (int)Math.Ceiling((double)scene.Columns / MostPaths));
        var asked = new Dictionary<int, double>();
        return [.. Enumerable.Range(0, scene.Columns).Select(column => Share(Math.Min((column / every * every) + (every / 2), scene.Columns - 1)))];

        double Share(int column)
        {
            if (asked.TryGetValue(column, out var known)) return known;
            return asked[column] = farthest[column] is { } patch
                ? sight.SunlitShare(scene.View.Columns[column].Bearing, patch.Distance, (patch.Top + patch.Bottom) / 2, air)
                : 1;
        }
    }
}
