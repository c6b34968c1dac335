using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Tests.Light;

namespace Glowcast.Engine.Tests.Forecast;

/// <summary>What a rising deck leaves of the western ridge of the made valley, against scenes with that deck in them.</summary>
public class DeckSweepTests
{
    private static readonly DeckSweep Sweep = DeckSweep.Of(
        VisibleSurface.From(Valley.Grid, SightModel.Usual, Valley.Lookout, Valley.West, Scene.ColumnsOf(Valley.West)), SightModel.Usual, LightThresholds.Usual.RidgeFrom);

    [Fact]
    public void The_lookout_is_drowned_before_the_higher_ridge_is_swallowed()
    {
        Assert.Equal(Valley.Lookout.Height, Sweep.Eye);
        // The crest stands higher than the eye, so no deck below the eye hides it.
        Assert.Equal(Sweep.Eye, Sweep.FirstSwallowed);
        Assert.Equal((1, false), (Sweep.At(Length.FromMetres(1300)).CrestShare, Sweep.At(Length.FromMetres(1300)).IsLookoutDrowned));
        Assert.Equal((0, true), (Sweep.At(Sweep.Eye).CrestShare, Sweep.At(Sweep.Eye).IsLookoutDrowned));
    }

    [Theory]
    [InlineData(30, 200)]
    [InlineData(100, 200)]
    [InlineData(100, 60)]
    public void The_bulge_of_the_deck_swallows_a_far_crest_before_it_is_covered(double distanceKm, double overM)
    {
        // Eye and crest at the same height over the deck: the sight line sinks lowest half-way, by d²(1−k)/8R.
        var sagM = distanceKm * distanceKm * 1e6 * (1 - SightModel.UsualRefractionK) / (8 * SightModel.EarthRadiusM);
        var sweep = SweepOf(eyeM: 1000 + overM, crestM: 1000 + overM, distanceKm);
        Assert.Equal(1000 + overM - sagM, sweep.FirstSwallowed!.Value.Metres, 0.1);
    }

    [Fact]
    public void A_lower_crest_near_by_goes_when_it_is_covered() => Assert.Equal(900, SweepOf(eyeM: 1500, crestM: 900, distanceKm: 8).FirstSwallowed!.Value.Metres, 1e-9);

    [Fact]
    public void Islands_are_counted_and_the_table_runs_from_the_ground_to_the_eye()
    {
        Length? High(double metres) => Length.FromMetres(metres);
        var sweep = new DeckSweep(Length.FromMetres(1450), [High(1200), null, High(1000), High(800), High(1300), High(1300)], Length.FromMetres(480));
        Assert.Equal((800, 1200, 1300), (sweep.FirstSwallowed!.Value.Metres, sweep.HalfSwallowed!.Value.Metres, sweep.AllSwallowed!.Value.Metres));
        Assert.Equal(new DeckRow(Length.FromMetres(900), 0.8, 3, false), sweep.At(Length.FromMetres(900)));
        var table = sweep.Table();
        Assert.Equal([500, 600, 700, 800, 900, 1000, 1100, 1200, 1300, 1400, 1500], table.Select(row => row.Top.Metres));
        Assert.Equal([1.0, 1, 1, 0.8, 0.8, 0.6, 0.6, 0.4, 0, 0, 0], table.Select(row => row.CrestShare));
        Assert.Equal([false, true], table.Skip(9).Select(row => row.IsLookoutDrowned));
    }

    [Theory]
    [InlineData(700)]
    [InlineData(1200)]
    [InlineData(1400)]
    public void A_scene_with_the_deck_in_it_shows_the_same_columns(double topM)
    {
        var scene = Scene.Of(Valley.Grid, SightModel.Usual, Valley.Lookout, Valley.West, LightThresholds.Usual, Length.FromMetres(topM));
        var shown = scene.Patches.Where(patch => patch.Role == PatchRole.Crest).Select(patch => patch.Column).Distinct().Count();
        Assert.Equal(Sweep.At(Length.FromMetres(topM)).CrestShare, (double)shown / scene.Columns, 1e-9);
    }

    /// <summary>One column whose skyline is the edge of a tableland.</summary>
    private static DeckSweep SweepOf(double eyeM, double crestM, double distanceKm)
    {
        const int rows = 3000, rowOfEdge = 1000, columns = 5;
        var edge = new GroundLine(GeoPoint.FromDegrees(46, 8), Azimuth.FromDegrees(0)).At(distanceKm * 1000);
        var stepDeg = (edge.LatitudeDeg - 46) / (rows - 1 - rowOfEdge);
        var heights = new float[rows * columns];
        Array.Fill(heights, (float)crestM, 0, (rowOfEdge + 1) * columns);
        var grid = new ElevationGrid(new GridPosts(rows, columns, 46 + (stepDeg * (rows - 1)), 7.99, stepDeg, 0.005), heights, "made");
        var eye = Place.FromDegrees(46, 8, eyeM);
        return DeckSweep.Of(VisibleSurface.From(grid, SightModel.Usual, eye, BearingSpan.FromDegrees(-0.1, 0.1), 1), SightModel.Usual, Length.FromKilometres(5));
    }
}
