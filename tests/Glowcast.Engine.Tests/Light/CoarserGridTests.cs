using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using MathNet.Numerics.Statistics;
using NodaTime;

namespace Glowcast.Engine.Tests.Light;

/// <summary>The same mountains on a 30 m grid and on one of 90 m made from it: whether the stated ± of first and last light on the
/// crests covers what the coarser grid does to them.</summary>
/// <remarks>bigtujunga_utm11n.tif: SRTM1, NASA, public domain; 1197 × 643 posts, 315 m to 2295 m.</remarks>
public class CoarserGridTests
{
    private const int Coarser = 3;

    private static readonly LocalDate[] Dates = [new(2026, 3, 20), new(2026, 12, 21)];

    [FactNeeds<SharedTiles>]
    public void The_stated_uncertainty_covers_the_step_from_90_m_to_30_m_for_nine_crest_points_in_ten()
    {
        var fine = Read("terrain/bigtujunga_utm11n.tif");
        var coarse = BlockMeans(fine);
        var shifts = (
            from point in CrestPoints(fine)
            from date in Dates
            from shift in Shifts(point, date, fine, coarse)
            select shift).ToList();

        var covered = shifts.Count(shift => Math.Abs(shift.Seconds) <= shift.StatedS) / (double)shifts.Count;
        var far = shifts.FindAll(shift => shift.HorizonM > 5000);
        var farStatedS = far.Select(shift => shift.StatedS).Median();
        TestContext.Current.TestOutputHelper?.WriteLine(
            $"{covered:0.000} of {shifts.Count} moments covered; horizons beyond 5 km: {far.Count(shift => Math.Abs(shift.Seconds) <= shift.StatedS)} of {far.Count}, "
            + $"median shift {far.Select(shift => Math.Abs(shift.Seconds)).Median():0} s, median stated {farStatedS:0} s");
        // And not by saying much: where the horizon is far, the ± stays below a minute and a half.
        Assert.InRange(farStatedS, 0, 90);
        Assert.True(shifts.Count > 100 && covered >= 0.9, $"{covered:0.000} of {shifts.Count} moments are covered");
    }

    private static IEnumerable<(double Seconds, double StatedS, double HorizonM)> Shifts(GeoPoint point, LocalDate date, ElevationGrid fine, ElevationGrid coarse)
    {
        var (a, b) = (LightOn(point, date, fine), LightOn(point, date, coarse));
        if (a.Count == 0 || b.Count == 0) yield break;
        foreach (var (sharp, blurred) in new[] { (Edge(a[0].Start, a[0].Time.Start), Edge(b[0].Start, b[0].Time.Start)), (Edge(a[^1].End, a[^1].Time.End), Edge(b[^1].End, b[^1].Time.End)) })
        {
            // Past the tile's edge a smooth earth stands for the horizon in both grids; only ground counts here.
            if (sharp.Edge is not { IsBeyondGrid: false } || blurred.Edge is not { IsBeyondGrid: false } stated) continue;
            yield return ((blurred.At - sharp.At).TotalSeconds, stated.Uncertainty.CombinedS, stated.HorizonDistance!.Value.Metres);
        }

        static (LightEdge? Edge, Instant At) Edge(LightEdge? edge, Instant at) => (edge, at);
    }

    private static IReadOnlyList<LitInterval> LightOn(GeoPoint point, LocalDate date, ElevationGrid grid) =>
        grid.HeightAt(point) is { } height ? DirectLight.On(new Place(point, height), grid, SightModel.Usual, SunTrack.Over(LocalDay.Of(date, point, null))).AnyLimb : [];

    /// <summary>The skyline more than 2 km away, all round, from three summits: of each bearing the highest post within one cell.</summary>
    private static IEnumerable<GeoPoint> CrestPoints(ElevationGrid grid)
    {
        foreach (var (across, down) in ((double, double)[])[(0.25, 0.5), (0.5, 0.4), (0.75, 0.5)])
        {
            var point = Summit(grid, across, down);
            var view = VisibleSurface.From(grid, SightModel.Usual, new Place(point, grid.HeightAt(point)!.Value + Length.FromMetres(2)), BearingSpan.FromDegrees(0, 359.9), 60);
            foreach (var column in view.Columns)
            {
                if (column.Samples.Count == 0 || column.Samples[^1].DistanceM < 2000) continue;
                var (x, y) = grid.Posts.ToCells(new GroundLine(point, column.Bearing).At(column.Samples[^1].DistanceM));
                yield return Highest(grid, (int)Math.Round(x), (int)Math.Round(y), 1);
            }
        }
    }

    private static GeoPoint Summit(ElevationGrid grid, double across, double down) =>
        Highest(grid, (int)(across * grid.Posts.Columns), (int)(down * grid.Posts.Rows), 100);

    private static GeoPoint Highest(ElevationGrid grid, int column, int row, int around)
    {
        var best = (
            from r in Enumerable.Range(row - around, (2 * around) + 1)
            from c in Enumerable.Range(column - around, (2 * around) + 1)
            where r >= 0 && r < grid.Posts.Rows && c >= 0 && c < grid.Posts.Columns
            orderby grid.Row(r)[c] descending
            select (Column: c, Row: r)).First();
        return grid.Posts.ToPoint(best.Column, best.Row);
    }

    private static ElevationGrid Read(string path)
    {
        using var stream = File.OpenRead(SharedData.Path(path));
        return GridFile.Read(stream, Path.GetFileName(path));
    }

    private static ElevationGrid BlockMeans(ElevationGrid fine)
    {
        var (rows, columns) = (fine.Posts.Rows / Coarser, fine.Posts.Columns / Coarser);
        var heights = new float[rows * columns];
        for (var row = 0; row < rows; row++)
            for (var column = 0; column < columns; column++)
            {
                var sum = 0.0;
                for (var r = 0; r < Coarser; r++)
                    for (var c = 0; c < Coarser; c++) sum += fine.Row((row * Coarser) + r)[(column * Coarser) + c];
                heights[(row * columns) + column] = (float)(sum / (Coarser * Coarser));
            }
        var posts = fine.Posts;
        // A block's mean stands at the middle post of the block.
        return new ElevationGrid(
            new GridPosts(rows, columns, posts.Top - posts.RowStep, posts.Left + posts.ColumnStep, Coarser * posts.RowStep, Coarser * posts.ColumnStep, posts.Projection!, posts.Crs),
            heights, "block means");
    }
}
