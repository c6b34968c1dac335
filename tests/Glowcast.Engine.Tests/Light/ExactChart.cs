using Glowcast.Engine.Light;
using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Tests.Light;

/// <summary>Light by exact rays alone, to hold the chart against that has most of it from a table of horizons.</summary>
internal static class ExactChart
{
    // Finer than any that a chart needs.
    private static readonly SearchFineness Fineness = new(15, 3, 0.1, 600);

    public static List<Stretch>[] LitStretches(LightChart chart)
    {
        var level = Disc.HeightForShareOfArea(chart.Scene.Thresholds.DiscShare);
        var lit = new List<Stretch>[chart.Scene.Patches.Count];
        Parallel.For(0, lit.Length, () => new SunOverGround(chart.Track, chart.Scene.Grid, chart.Scene.Model), (i, _, ground) =>
        {
            ground.StandAt(chart.Scene.Patches[i].Ground);
            lit[i] = new ClearanceTrace(ground, Fineness, -1, 1).Above(level).ConvertAll(stretch => new Stretch(stretch.Start.Seconds, stretch.End.Seconds));
            return ground;
        }, _ => { });
        return lit;
    }
}
