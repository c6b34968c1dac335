using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using NodaTime;

namespace Glowcast.Engine.Tests.Light;

/// <summary>Edges of windows hang on the ground and the sun, not on how finely the search looks or where the posts of the grid lie.</summary>
public class SteadyEdgesTests
{
    private const double MostS = 2;
    private const double MostShare = 0.01;
    private static readonly SceneFineness Halved = new(20, Angle.FromDegrees(0.2), 0.5);

    public static TheoryData<string> Kinds => [.. MadeGrounds.Kinds];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Halving_every_step_moves_no_edge(string kind)
    {
        var grid = MadeGrounds.GridOf(kind);
        HoldTogether(EdgesOf(grid, SceneFineness.Usual), EdgesOf(grid, Halved));
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Moving_the_posts_by_a_millionth_of_a_cell_moves_no_edge(string kind)
    {
        var usual = EdgesOf(MadeGrounds.GridOf(kind), SceneFineness.Usual);
        HoldTogether(usual, EdgesOf(MadeGrounds.GridOf(kind, movedCells: 1e-6), SceneFineness.Usual));
        HoldTogether(usual, EdgesOf(MadeGrounds.GridOf(kind, stretched: 1e-15), SceneFineness.Usual));
    }

    private static void HoldTogether(Edges a, Edges b)
    {
        var text = string.Join("; ", a.Ends.Zip(b.Ends, (one, other) => $"{one.Seconds:0.0} {other.Seconds - one.Seconds:+0.0;-0.0}"));
        TestContext.Current.TestOutputHelper?.WriteLine(text);
        Assert.NotEmpty(a.Ends);
        Assert.Equal(a.Ends.Count, b.Ends.Count);
        foreach (var (one, other) in a.Ends.Zip(b.Ends))
        {
            // Where light comes or goes so slowly that one percent of the ground takes longer than that, one percent.
            var apart = Math.Abs(one.Share.At(one.Seconds) - other.Share.At(one.Seconds));
            Assert.True(Math.Abs(one.Seconds - other.Seconds) <= MostS || apart <= MostShare, $"{one.Seconds:0.0} s, {other.Seconds:0.0} s; {apart:0.0000} of the ground");
        }
    }

    private sealed record Edges(IReadOnlyList<(double Seconds, ShareOverTime Share)> Ends);

    private static Edges EdgesOf(ElevationGrid grid, SceneFineness fineness)
    {
        var thresholds = MadeGrounds.Thresholds;
        var scene = MadeGrounds.SceneOf(grid, SightModel.Usual, thresholds, fineness);
        var day = LocalDay.Of(new LocalDate(2026, 10, 20), scene.Lookout.Point, null);
        var chart = LightChart.Over(scene, day, cancel: TestContext.Current.CancellationToken)!;
        return new Edges([.. EndsOf(chart.Ridge.LitEnough(thresholds), chart.RidgeColumns), .. EndsOf(chart.ValleyShaded ?? [], chart.Valley)]);

        IEnumerable<(double, ShareOverTime)> EndsOf(IEnumerable<Stretch> stretches, ShareOverTime? share) =>
            stretches.SelectMany(stretch => new[] { (stretch.StartS, share!), (stretch.EndS, share!) });
    }
}
