using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Tests.Terrain;
using NodaTime;

namespace Glowcast.Engine.Tests.Light;

public class LightOnTheSpanTests
{
    private static readonly LightThresholds Thresholds = LightThresholds.Usual with { RidgeFrom = Length.FromKilometres(8) };

    private static readonly Interval Autumn = LocalDay.Of(new LocalDate(2026, 10, 20), Valley.Lookout.Point, null);

    [Fact]
    public void The_window_opens_with_light_on_the_crest_and_closes_with_light_in_the_valley()
    {
        var chart = ChartOver(ValleyScene(), Autumn)!;
        var window = WindowSearch.Windows(chart)[0];

        // The second way: single points, searched as closely as the terrain allows. All of the crest is alike.
        var level = Disc.HeightForShareOfArea(Thresholds.DiscShare);
        var crest = FirstLight(Valley.WestCrest, level);
        Assert.Equal(WindowEdgeCause.RidgeLit, window.Start.Cause);
        Assert.InRange((window.Start.At - crest).TotalSeconds, -5, 120);

        Assert.Equal(WindowEdgeCause.ValleyLit, window.End.Cause);
        // The floor's western edge is lit first, its middle later: a fifth of the valley lies between.
        var westEdge = FirstLight(Place.FromDegrees(46.5, 7 + ((Valley.WestRidgeColumn + 22) / 1200.0), Valley.FloorM), level);
        var middle = FirstLight(Valley.Floor, level);
        Assert.True(westEdge < window.End.At && window.End.At < middle, $"{westEdge} < {window.End.At} < {middle}");
        Assert.Equal(LightDirection.Front, window.Direction);
        Assert.False(window.SunInSpan);
        Assert.True(window.Start.Uncertainty.CombinedS > 1 && window.End.Uncertainty.CombinedS > 1);
    }

    [Fact]
    public void In_the_evening_the_same_ridge_has_its_back_to_the_sun()
    {
        var windows = WindowSearch.Windows(ChartOver(ValleyScene(), Autumn)!);
        Assert.DoesNotContain(windows, window => window.Start.At > Autumn.Start + Duration.FromHours(15));
    }

    [Fact]
    public void Patches_are_lit_when_their_points_are()
    {
        var chart = ChartOver(ValleyScene(), Autumn)!;
        var level = Disc.HeightForShareOfArea(Thresholds.DiscShare);
        for (var i = 0; i < chart.Scene.Patches.Count; i += 97)
        {
            var ground = new SunOverGround(chart.Track, chart.Scene.Grid, chart.Scene.Model);
            ground.StandAt(chart.Scene.Patches[i].Ground);
            var closely = new ClearanceTrace(ground, SearchFineness.OnePoint, -1, 1).Above(level);
            var quickly = chart.LitStretches(i);
            Assert.Equal(closely.Count, quickly.Count);
            foreach (var (a, b) in closely.Zip(quickly))
            {
                Assert.Equal(a.Start.Seconds, b.StartS, 1.5);
                Assert.Equal(a.End.Seconds, b.EndS, 1.5);
            }
        }
    }

    [Fact]
    public void The_charts_minutes_follow_the_disc_over_the_ridge()
    {
        var chart = ChartOver(ValleyScene(), Autumn)!;
        var crest = chart.MeanDiscShares(role => role == PatchRole.Crest);
        var middle = chart.Scene.Columns / 2;
        var shares = Enumerable.Range(0, chart.Minutes).Select(minute => crest[(minute * chart.Scene.Columns) + middle]).ToList();
        var firstLit = shares.FindIndex(share => share > 0);
        var firstWhole = shares.FindIndex(share => share == 255);
        Assert.True(firstLit > 0 && firstWhole > firstLit && firstWhole - firstLit <= 6, $"{firstLit}, {firstWhole}");
        Assert.Equal(0, shares[0]);
    }

    [Fact]
    public void Ground_is_crest_ridge_or_valley_and_the_crest_band_is_as_high_as_it_says()
    {
        var scene = ValleyScene();
        foreach (var column in scene.Patches.GroupBy(patch => patch.Column))
        {
            var crest = column.Where(patch => patch.Role == PatchRole.Crest).ToList();
            Assert.Equal(Thresholds.CrestBand.Degrees, crest.Max(patch => patch.Top.Degrees) - crest.Min(patch => patch.Bottom.Degrees), 0.06);
            Assert.All(column, patch => Assert.Equal(patch.Role == PatchRole.Valley, patch.Distance < Thresholds.RidgeFrom));
        }
        Assert.Contains(scene.Patches, patch => patch.Role == PatchRole.Valley);
        Assert.Contains(scene.Patches, patch => patch.Role == PatchRole.Ridge);
    }

    [Fact]
    public void Under_a_deck_the_valley_is_the_deck_and_only_islands_stay_ridge()
    {
        var deck = Length.FromMetres(1200);
        var scene = Scene.Of(Valley.Grid, SightModel.Usual, Valley.Lookout, Valley.West, Thresholds, deck);
        var deckPatches = scene.Patches.Where(patch => patch.Role == PatchRole.Valley && patch.Distance > Length.FromKilometres(2)).ToList();
        Assert.NotEmpty(deckPatches);
        Assert.All(deckPatches, patch => Assert.Equal(1200, patch.Ground.Height.Metres, 1.0));
        Assert.All(scene.Patches.Where(patch => patch.Role != PatchRole.Valley), patch => Assert.True(patch.Ground.Height > deck));
        // The top of the deck sees the sun sooner than the floor under it did.
        var bare = WindowSearch.Windows(ChartOver(ValleyScene(), Autumn)!)[0];
        var covered = WindowSearch.Windows(ChartOver(scene, Autumn)!)[0];
        Assert.True(covered.End.At < bare.End.At);
    }

    [Theory]
    [InlineData(2000)]
    [InlineData(3000)]
    public void A_summit_over_the_sea_sees_the_sun_as_low_as_the_dip_lets_it(double heightM)
    {
        // Reference/sky/dip.csv: airless altitude of a body seen on the sea horizon.
        var grid = Grids.Square(46, 7, (row, column) => Math.Max(-50, heightM - (0.6 * 92.6 * double.Hypot(row - 600, (column - 600) * 0.69))));
        var summit = Place.FromDegrees(46.5, 7.5, heightM);
        var day = LocalDay.Of(new LocalDate(2026, 3, 20), summit.Point, null);
        var first = DirectLight.On(summit, grid, SightModel.Usual with { BeyondGrid = Length.Zero }, SunTrack.Over(day)).Centre[0].Time.Start;
        var row = ReferenceData.Rows("sky/dip.csv").Single(row => row.Number("observer_height_m") == heightM && row.Number("horizon_height_m") == 0);

        var sun = Sun.At(first).SeenFrom(summit);

        // The sight line bends with k = 0.13, the reference with the standard atmosphere: the horizon lies this much deeper.
        var deeper = (row.Number("dip_k0p13_arcmin") - row.Number("dip_refracted_us76_arcmin")) / 60;
        Assert.InRange(deeper, 0, 0.05);
        Assert.Equal(-(row.Number("dip_refracted_us76_deg") + deeper), Refraction.ToApparent(sun.AirlessAltitude, summit.Height).Degrees, 0.002);
        // Per degree of apparent altitude, refraction down there grows by almost as much again.
        Assert.Equal(row.Number("true_altitude_of_body_seen_on_horizon_deg") - (1.8 * deeper), sun.AirlessAltitude.Degrees, 0.015);
    }

    [Fact]
    public void A_polar_night_has_no_chart_and_a_polar_day_has_all_of_it()
    {
        var grid = Grids.Square(78, 15, (_, column) => column > 600 ? 800 : 0, size: 601);
        var lookout = Place.FromDegrees(78.5, 15.3, 2);
        var scene = Scene.Of(grid, SightModel.Usual, lookout, BearingSpan.FromDegrees(60, 120), LightThresholds.Usual with { RidgeFrom = Length.FromKilometres(2) });
        Assert.Null(ChartOver(scene, LocalDay.Of(new LocalDate(2026, 12, 21), lookout.Point, null)));
        var summer = ChartOver(scene, LocalDay.Of(new LocalDate(2026, 6, 21), lookout.Point, null))!;
        Assert.Equal(86400, summer.Track.LengthS, 1.0);
    }

    [Fact]
    public void A_span_may_cross_north_and_the_southern_sun_stands_in_it()
    {
        // The valley's mirror image south of the equator: a wall in the north, the sun behind it at noon.
        var grid = Grids.Square(-34, 150, (row, _) => row < 500 ? 1500 : 300, size: 1201);
        var lookout = Place.FromDegrees(-33.55, 150.5, 302);
        var scene = Scene.Of(grid, SightModel.Usual, lookout, BearingSpan.FromDegrees(340, 20), LightThresholds.Usual);
        Assert.NotNull(scene.HighestCrest);
        var chart = ChartOver(scene, LocalDay.Of(new LocalDate(2026, 6, 21), lookout.Point, null))!;
        var noon = chart.Track.Interval.Start + (chart.Track.Interval.Duration / 2);
        Assert.True(scene.Span.Contains(Sun.At(noon).SeenFrom(lookout).Azimuth));
    }

    [Fact]
    public void Long_work_can_be_stopped_and_says_how_far_it_is()
    {
        using var stop = new CancellationTokenSource();
        var said = new List<double>();
        var progress = new Immediate(share =>
        {
            lock (said) said.Add(share);
            stop.Cancel();
        });
        Assert.ThrowsAny<OperationCanceledException>(() => LightChart.Over(ValleyScene(), Autumn, progress, stop.Token));
        Assert.All(said, share => Assert.InRange(share, 0, 1));
        Assert.NotEmpty(said);
    }

    private static Scene ValleyScene() => Scene.Of(Valley.Grid, SightModel.Usual, Valley.Lookout, Valley.West, Thresholds);

    private static LightChart? ChartOver(Scene scene, Interval day) =>
        LightChart.Over(scene, day, cancel: TestContext.Current.CancellationToken);

    private static Instant FirstLight(Place place, double level)
    {
        var track = SunTrack.Over(Autumn);
        var ground = new SunOverGround(track, Valley.Grid, SightModel.Usual);
        ground.StandAt(place);
        return track.At(new ClearanceTrace(ground, SearchFineness.OnePoint, -1, 1).Above(level)[0].Start.Seconds);
    }

    private sealed class Immediate(Action<double> say) : IProgress<double>
    {
        public void Report(double value) => say(value);
    }
}
