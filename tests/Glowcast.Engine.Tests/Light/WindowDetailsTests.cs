using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Tests.Terrain;
using NodaTime;

namespace Glowcast.Engine.Tests.Light;

/// <summary>What a window says of itself: what opens and closes it, from which side the light comes, where it is broken, and
/// what was missing where there is none.</summary>
public class WindowDetailsTests
{
    private const double ColumnM = 63.9;
    private const double RowM = 92.6;

    private static readonly LightThresholds Thresholds = LightThresholds.Usual with { RidgeFrom = Length.FromKilometres(8) };

    private static readonly BearingSpan Narrow = BearingSpan.FromDegrees(267, 273);

    private static readonly Interval Autumn = LocalDay.Of(new LocalDate(2026, 10, 20), Valley.Lookout.Point, null);

    [Fact]
    public void The_crest_is_lit_over_the_open_horizon_and_the_valley_over_the_eastern_ridge()
    {
        var window = WindowSearch.Windows(ChartOver(Valley.Grid, Narrow, Autumn))[0];

        var opens = window.Start.Horizon!;
        Assert.Equal(HorizonKind.OpenHorizon, opens.Kind);
        // Past the grid's edge the plain goes on at the floor's height: the horizon of a crest 2100 m above it, √(Δh/κ), κ = 0.87/2R.
        Assert.Equal(Math.Sqrt((Valley.WestCrestM - Valley.FloorM) / (0.87 / (2 * 6_371_000))), opens.Distance!.Value.Metres, 4000.0);
        Assert.Equal(Sun.At(window.Start.At).SeenFrom(Valley.WestCrest).Azimuth.Degrees, opens.SunAzimuth.Degrees, 0.3);

        var closes = window.End.Horizon!;
        Assert.Equal(HorizonKind.Terrain, closes.Kind);
        // A fifth of the floor is lit when the edge of the light, which lies along a line parallel to the ridge, has come so far.
        var across = closes.Distance!.Value.Metres * Math.Sin(closes.SunAzimuth.Radians) / ColumnM;
        Assert.InRange(across, Valley.EastRidgeColumn - 600, Valley.EastRidgeColumn - Valley.WestRidgeColumn);
        Assert.Equal(DayHalf.Morning, window.Half);
        Assert.Null(window.BreakBefore);
    }

    [Fact]
    public void Over_a_deck_the_horizon_is_the_deck()
    {
        // Nothing but deck towards the sun: the lookout's own island and the ridge stand out of it.
        var deck = Length.FromMetres(1200);
        var grid = Grids.Square(46, 7, (_, column) => Math.Max(
            Valley.FloorM, Math.Max(Valley.WestCrestM - (100 * Math.Abs(column - 200)), Valley.EastCrestM - (100 * Math.Abs(column - 400)))));
        var lookout = Place.FromDegrees(46.5, 7 + (399 / 1200.0), Valley.EastCrestM - 100 + 1.7);
        var scene = Scene.Of(grid, SightModel.Usual, lookout, Narrow, Thresholds with { CrestBand = Angle.FromDegrees(0.2), RidgeFrom = Length.FromKilometres(11) }, deck);
        var opens = WindowSearch.Windows(LightChart.Over(scene, Autumn, cancel: TestContext.Current.CancellationToken)!)[0].Start.Horizon!;
        Assert.Equal(HorizonKind.Deck, opens.Kind);
        // It goes on past the grid's edge, to the dip of the crest over it: a tangent touches a sphere of R/(1 − k) at √(2 h R/(1 − k)).
        var overDeckM = Valley.WestCrestM - deck.Metres;
        Assert.Equal(Math.Sqrt(2 * overDeckM * SightModel.EarthRadiusM / (1 - SightModel.UsualRefractionK)), opens.Distance!.Value.Metres, 4000.0);
    }

    [Fact]
    public void Where_nothing_is_assumed_past_the_edge_the_edge_of_the_grid_lets_the_light_in()
    {
        var open = Grids.Square(46, 7, (_, _) => 0);
        var nothing = new SightModel { BeyondGrid = null };
        var high = new SightModel { BeyondGrid = Length.FromMetres(1000) };
        var crest = Place.FromDegrees(46.5, 7 + (900 / 1200.0), 2000);

        Assert.Equal(HorizonKind.OpenHorizon, KindAt(new SightModel()));
        Assert.Equal(HorizonKind.GridEdge, KindAt(high));
        // In the grid there is still the plain at the sea's height.
        Assert.Equal(HorizonKind.OpenHorizon, KindAt(nothing));

        HorizonKind KindAt(SightModel model)
        {
            var sights = new SightLines(open, model);
            var east = Azimuth.FromDegrees(90);
            // The thousand metres begin at the edge, 19 km away; their dip lies at √(1000 m/κ) = 121 km.
            var eye = model == high ? crest with { Height = Length.FromMetres(1010) } : crest;
            return EdgeHorizon.KindOf(eye, east, sights.HorizonOf(eye, east), sights, null);
        }
    }

    [Fact]
    public void The_ridge_gains_its_light_from_the_side_that_the_shading_crest_lets_in_first()
    {
        // The eastern ridge is high in the north and low in the south; the western one stands below it.
        var grid = Grids.Square(46, 7, (row, column) => Math.Max(
            Valley.FloorM, Math.Max(1400 - (100 * Math.Abs(column - Valley.WestRidgeColumn)), EastCrestM(row) - (100 * Math.Abs(column - Valley.EastRidgeColumn)))));
        var lookout = Place.FromDegrees(46.5, 7 + (690 / 1200.0), EastCrestM(600) - 1000 + 30);
        var scene = Scene.Of(grid, SightModel.Usual, lookout, BearingSpan.FromDegrees(255, 285), Thresholds);
        var chart = LightChart.Over(scene, Autumn, cancel: TestContext.Current.CancellationToken)!;
        var enough = chart.RidgeColumns.AtLeast(0.9)[0];

        var sweep = LightSweep.GainOf(chart, enough.StartS + 1)!;

        Assert.Equal(SweepSide.Left, sweep.From);
        Assert.InRange(sweep.First.Degrees, 255, 265);
        Assert.InRange(sweep.Last.Degrees, 275, 285);
        // The second way: one point of the crest at each end, searched closely.
        var (first, last) = (CrestOf(0), CrestOf(scene.Columns - 1));
        var lagS = (FirstLight(grid, last) - FirstLight(grid, first)).TotalSeconds;
        Assert.True(lagS > 60, $"{lagS} s");
        Assert.InRange(sweep.Across.TotalSeconds, 0.7 * lagS, 1.3 * lagS);

        Place CrestOf(int column) => scene.Patches.First(patch => patch.Column == column && patch.Role == PatchRole.Crest).Ground;

        static double EastCrestM(int row) => 2300 - (1.0 * (row - 600));
    }

    [Fact]
    public void A_ridge_lit_all_at_once_has_no_side()
    {
        var chart = ChartOver(Valley.Grid, Narrow, Autumn);
        Assert.Equal(SweepSide.None, WindowSearch.Windows(chart)[0].Gains!.From);
    }

    [Fact]
    public void A_tower_before_the_rising_sun_breaks_the_window()
    {
        // Towards 109° from the western crest, 25 km away, 2.4 km wide and 3500 m high: its shadow covers the narrow span.
        var (row, column) = (600 + (25_000 * -Math.Cos(Angle.FromDegrees(109).Radians) / RowM), Valley.WestRidgeColumn + (25_000 * Math.Sin(Angle.FromDegrees(109).Radians) / ColumnM));
        var grid = Grids.Square(46, 7, (r, c) =>
            double.Hypot((r - row) * RowM, (c - column) * ColumnM) < 1200 ? 3500 : Valley.Grid.Row(r)[c]);
        var windows = WindowSearch.Windows(ChartOver(grid, Narrow, Autumn));

        Assert.Equal(2, windows.Count);
        Assert.Equal(WindowEdgeCause.RidgeShaded, windows[0].End.Cause);
        Assert.Equal(HorizonKind.Terrain, windows[0].End.Horizon!.Kind);
        Assert.Equal(25_000, windows[0].End.Horizon!.Distance!.Value.Metres, 2500.0);
        Assert.Null(windows[0].BreakBefore);
        var gap = windows[1].BreakBefore!;
        Assert.Equal(WindowEdgeCause.RidgeShaded, gap.Cause);
        Assert.Equal(windows[1].Start.At - windows[0].End.At, gap.Length);
    }

    [Fact]
    public void A_day_without_a_window_names_the_moment_that_came_nearest()
    {
        var afternoon = new Interval(Autumn.Start + Duration.FromHours(11), Autumn.End);
        var chart = ChartOver(Valley.Grid, Narrow, afternoon);
        Assert.Empty(WindowSearch.Windows(chart));

        var none = NoWindow.Of(chart);

        Assert.Equal(NoWindowReason.ValleyLit, none.Reason);
        var nearest = none.Nearest!;
        // The second way: every second of the afternoon.
        var miss = Enumerable.Range(0, (int)chart.Track.LengthS).Min(second => Math.Max(0.9 - chart.RidgeColumns.At(second), chart.Valley!.At(second) - 0.2));
        Assert.Equal(miss, Math.Max(nearest.RidgeMissing, nearest.ValleyTooMuch), 0.005);
        var at = chart.Track.SecondsAt(nearest.At);
        Assert.Equal(chart.RidgeColumns.At(at), nearest.RidgeShare);
        Assert.Equal(chart.Valley!.At(at), nearest.ValleyShare);
        var inShade = Enumerable.Range(0, (int)chart.Track.LengthS).Where(second => chart.Valley.At(second) <= 0.2).Max(second => chart.RidgeColumns.At(second));
        Assert.Equal(inShade, nearest.BestRidgeInShade!.Value, 0.2);
        Assert.True(inShade < 0.9);
    }

    [Fact]
    public void A_ridge_that_is_never_lit_comes_near_to_nothing()
    {
        var evening = new Interval(Autumn.Start + Duration.FromHours(17.5), Autumn.End);
        var none = NoWindow.Of(ChartOver(Valley.Grid, Narrow, evening));
        Assert.Equal(NoWindowReason.RidgeNeverLit, none.Reason);
        Assert.Null(none.Nearest);
    }

    private static LightChart ChartOver(ElevationGrid grid, BearingSpan span, Interval day) => LightChart.Over(
        Scene.Of(grid, SightModel.Usual, Valley.Lookout, span, Thresholds), day, cancel: TestContext.Current.CancellationToken)!;

    private static Instant FirstLight(ElevationGrid grid, Place place)
    {
        var track = SunTrack.Over(Autumn);
        var ground = new SunOverGround(track, grid, SightModel.Usual);
        ground.StandAt(place);
        return track.At(new ClearanceTrace(ground, SearchFineness.OnePoint, -1, 1).Above(Disc.HeightForShareOfArea(0.9))[0].Start.Seconds);
    }
}
