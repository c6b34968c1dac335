using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>How the picture reads at one moment: direction of the light, relief and black point, bearing by bearing.</summary>
/// <param name="Bearings">One a column of the scene.</param>
/// <param name="Relief">Of the whole visible ridge.</param>
/// <param name="BlackPoint">Of the median bearing; null where no ridge is lit.</param>
public sealed record PictureLight(IReadOnlyList<BearingLight> Bearings, RidgeShadow? Relief, BlackPoint? BlackPoint)
{
    /// <param name="onRidge">The light on the ridge then.</param>
    public static PictureLight At(LightChart chart, Instant instant, RidgeLight onRidge, Length visibility, Reflectances reflectances)
    {
        ArgumentNullException.ThrowIfNull(chart);
        var moment = new Moment(chart, instant, onRidge, visibility, reflectances);
        var patches = Enumerable.Range(0, chart.Scene.Patches.Count)
            .Where(i => chart.Scene.Patches[i].Role != PatchRole.Valley).ToLookup(i => chart.Scene.Patches[i].Column);
        var bearings = Enumerable.Range(0, chart.Scene.Columns).Select(column => moment.Of(column, patches[column])).ToList();
        var stops = bearings.Where(bearing => bearing.BlackPoint is not null).Select(bearing => bearing.BlackPoint!).OrderBy(point => point.Stops).ToList();
        return new PictureLight(
            bearings, RidgeShadow.Together(bearings.Where(bearing => bearing.Relief is not null).Select(bearing => bearing.Relief!.Value)),
            stops.Count > 0 ? stops[stops.Count / 2] : null);
    }

    private sealed class Moment
    {
        private readonly LightChart chart;
        private readonly double seconds;
        private readonly RidgeLight onRidge;
        private readonly Reflectances reflectances;
        private readonly Azimuth sunAzimuth;
        private readonly Airlight air;
        private readonly GroundFacing facing;
        private readonly SightAir sightAir;

        public Moment(LightChart chart, Instant instant, RidgeLight onRidge, Length visibility, Reflectances reflectances)
        {
            (this.chart, this.onRidge, this.reflectances) = (chart, onRidge, reflectances);
            seconds = chart.Track.SecondsAt(instant);
            var scene = chart.Scene;
            sunAzimuth = chart.SourceAt(seconds).Azimuth;
            air = Airlight.Under(onRidge.DiffuseLux, visibility);
            facing = new GroundFacing(scene.Grid);
            sightAir = new SightAir(scene.Lookout, new SunOverGround(chart.Track, scene.Grid, scene.Model), scene.Model, seconds);
        }

        public BearingLight Of(int column, IEnumerable<int> ridge)
        {
            var bearing = chart.Scene.View.Columns[column].Bearing;
            var parts = ridge.Select(i => (Patch: chart.Scene.Patches[i], Relief: ReliefOf(i))).Where(part => part.Relief is not null).ToList();
            var relief = RidgeShadow.Together(parts.Select(part => part.Relief!.Value));
            var fromView = bearing.TurnTo(sunAzimuth).Abs();
            if (relief?.Incidence is not { } incidence) return new BearingLight(bearing, fromView, relief, null, null);
            // Light comes and goes at the crest first, and the picture's white is there.
            var lit = parts.First(part => part.Relief!.Value.Incidence is not null).Patch;
            var sunlit = sightAir.SunlitShare(bearing, lit.Distance, (lit.Top + lit.Bottom) / 2, air);
            var litLux = (incidence * onRidge.DirectLux) + onRidge.DiffuseLux;
            return new BearingLight(bearing, fromView, relief, BlackPoint.Of(litLux, onRidge.DiffuseLux, reflectances, air.InPartShade(sunlit), lit.Distance), sunlit);
        }

        private RidgeShadow? ReliefOf(int patch)
        {
            var (ground, weight) = (chart.Scene.Patches[patch].Ground, chart.Scene.Patches[patch].Weight);
            var isLit = chart.SunStretches(patch).Any(inSun => inSun.Contains(seconds));
            return RidgeShadow.Of(facing.CosTo(ground, chart.Track.EarthFixedAu(seconds)), isLit, weight);
        }
    }
}
