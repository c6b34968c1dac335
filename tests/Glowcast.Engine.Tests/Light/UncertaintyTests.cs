using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;
using MathNet.Numerics.Statistics;
using NodaTime;

namespace Glowcast.Engine.Tests.Light;

/// <summary>The stated ± of a window's ends against what happens to them when heights, k and refraction are really off.</summary>
/// <remarks>The hand-made valley made small, with its lookout ridge so high that the other ridge is lit over it.</remarks>
public class UncertaintyTests
{
    private const int Samples = 40;
    private const double RowM = 92.6;
    private const double ColumnM = 63.9;
    private const int Rows = 201;
    private const int Columns = 261;
    private const int WestRidge = 20;
    private const int EastRidge = 220;

    // What docs/model.md, L9 states: crests off by 0.13 of a cell more than other heights; alike over a kilometre or two.
    private const double CrestErrorM = 0.13 * RowM;
    private const double AlikeOverM = 1500;

    private static readonly double Level = Disc.HeightForShareOfArea(LightThresholds.Usual.DiscShare);

    private static readonly Place Lookout = Place.FromDegrees(46.5, 7 + ((EastRidge - 1) / 1200.0), 2000 - 100 + 30);

    private static readonly Interval Morning = new(Instant.FromUtc(2026, 10, 20, 5, 30), Instant.FromUtc(2026, 10, 20, 9, 30));

    // By what the grid says: as of shuttle radar, and as coarse as the worst maps.
    [Theory]
    [InlineData(5)]
    [InlineData(15)]
    public void The_ends_of_a_window_scatter_as_much_as_they_say(double heightErrorM)
    {
        var known = new HeightError(Length.FromMetres(heightErrorM), HeightErrorSource.Grid);
        var stated = WindowSearch.Windows(Chart(Ground((_, _) => 0).With(known), SightModel.Usual))[0];
        Assert.Equal((WindowEdgeCause.RidgeLit, WindowEdgeCause.ValleyLit), (stated.Start.Cause, stated.End.Cause));
        var random = new Random(20261020);
        var moments = Enumerable.Range(0, Samples).Select(_ => Sample(random, heightErrorM)).ToList();

        AssertScatter(moments.Select(moment => moment.StartS), stated.Start.Uncertainty.CombinedS);
        AssertScatter(moments.Select(moment => moment.EndS), stated.End.Uncertainty.CombinedS);
    }

    private static void AssertScatter(IEnumerable<double> moments, double statedS)
    {
        // Forty samples give a standard deviation to 11 %.
        var scatterS = moments.StandardDeviation();
        TestContext.Current.TestOutputHelper?.WriteLine($"scatter {scatterS:0.0} s, stated {statedS:0.0} s");
        Assert.True(scatterS > statedS / 1.35 && scatterS < 1.35 * statedS, $"scatter {scatterS:0.0} s, stated {statedS:0.0} s");
    }

    private static (double StartS, double EndS) Sample(Random random, double heightErrorM)
    {
        var (chart, refraction) = Drawn(random, heightErrorM);
        var window = WindowSearch.Windows(chart)[0];
        return (
            chart.Track.SecondsAt(window.Start.At) + RefractionShiftS(chart, window.Start, refraction, role => role == PatchRole.Crest),
            chart.Track.SecondsAt(window.End.At) + RefractionShiftS(chart, window.End, refraction, role => role == PatchRole.Valley));
    }

    /// <summary>The morning as it may really be, and the day's refraction in standard deviations, which the chart does not hold.</summary>
    internal static (LightChart Chart, double Refraction) Drawn(Random random, double heightErrorM)
    {
        var (height, crest) = (new SmoothNoise(random, AlikeOverM), new SmoothNoise(random, AlikeOverM));
        var k = SightModel.UsualRefractionK + (0.05 * SmoothNoise.Normal(random));
        var refraction = SmoothNoise.Normal(random);
        var grid = Ground((x, y) => (heightErrorM * height.At(x, y)) + (IsHigh(x) ? CrestErrorM * crest.At(x, y) : 0));
        return (Chart(grid, new SightModel { RefractionK = k }), refraction);
    }

    /// <summary>How much later the patch that decides comes into the light when the sun is refracted less, by so many of the
    /// standard deviations of L9: 0.16° · (refraction/0.55°)².</summary>
    internal static double RefractionShiftS(LightChart chart, WindowEdge edge, double deviations, Func<PatchRole, bool> role)
    {
        var seconds = chart.Track.SecondsAt(edge.At);
        var patch = Enumerable.Range(0, chart.Scene.Patches.Count)
            .Where(i => role(chart.Scene.Patches[i].Role) && chart.LitStretches(i).Count > 0)
            .MinBy(i => Math.Abs(chart.LitStretches(i)[0].StartS - seconds));
        var place = chart.Scene.Patches[patch].Ground;
        var ground = new SunOverGround(chart.Track, chart.Scene.Grid, chart.Scene.Model);
        ground.StandAt(place);
        var sun = ground.At(seconds);
        var refractionDeg = Refraction.OfApparent(Angle.FromRadians(sun.ApparentRad), place.Height).Degrees;
        var less = deviations * Angle.FromDegrees(0.16 * Math.Pow(refractionDeg / 0.55, 2)).Radians / sun.SemidiameterRad;
        return FirstAbove(Level + less) - FirstAbove(Level);

        double FirstAbove(double level) => new ClearanceTrace(ground, SearchFineness.OnePoint, level - 1, level + 1).Above(level)[0].Start.Seconds;
    }

    internal static LightChart Chart(ElevationGrid grid, SightModel model) => LightChart.Over(
        Scene.Of(grid, model, Lookout, BearingSpan.FromDegrees(267, 273), Geometry.Alone with { RidgeFrom = Length.FromKilometres(8) }),
        Morning, cancel: TestContext.Current.CancellationToken)!;

    private static bool IsHigh(double x) => Math.Min(Math.Abs((x / ColumnM) - WestRidge), Math.Abs((x / ColumnM) - EastRidge)) < 5;

    internal static ElevationGrid Ground(Func<double, double, double> error)
    {
        var heights = new float[Rows * Columns];
        for (var row = 0; row < Rows; row++)
            for (var column = 0; column < Columns; column++)
            {
                var height = Math.Max(500, Math.Max(1700 - (100 * Math.Abs(column - WestRidge)), 2000 - (100 * Math.Abs(column - EastRidge))));
                heights[(row * Columns) + column] = (float)(height + error(column * ColumnM, row * RowM));
            }
        return new ElevationGrid(new GridPosts(Rows, Columns, 46.5 + (100 / 1200.0), 7, 1 / 1200.0, 1 / 1200.0), heights, "made for a test");
    }
}
