using System.Diagnostics;
using System.Globalization;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using NodaTime;

namespace Glowcast.Benchmarks;

/// <summary>How cost grows with the ground: a tile beside mirror images of itself, 1, 4 and 16 of them, seen from the middle; and
/// the memory that it takes.</summary>
internal static class Growth
{
    private static readonly BearingSpan Span = BearingSpan.FromDegrees(210, 330);

    /// <summary>One line: posts, what is visible, CPU seconds of each work, peak memory of the process.</summary>
    /// <param name="across">Tiles beside each other; as many stand above one another.</param>
    /// <param name="finer">How many steps one of the tile's becomes.</param>
    public static void Run(string tile, int across, int finer)
    {
        var grid = Tiles.Repeated(Tiles.Read(tile), across, finer);
        var eye = Tiles.SummitNear(grid, (grid.Posts.Rows - 1) / 2, (grid.Posts.Columns - 1) / 2, within: 300 * finer);
        VisibleSurface? seen = null;
        var surface = AgainstGrass.Median(() => seen = VisibleSurface.From(grid, SightModel.Usual, eye, Tiles.AllRound, 7200));
        var scene = Scene.Of(grid, SightModel.Usual, eye, Span, LightThresholds.Usual);
        var chart = Processor.SecondsOf(() => LightChart.Over(scene, LocalDay.Of(new LocalDate(2026, 2, 14), eye.Point, null)));
        var sweep = new HorizonSweep(grid, SightModel.Usual);
        var horizonRad = new float[grid.Posts.Rows * grid.Posts.Columns];
        var direction = Processor.SecondsOf(() => sweep.Run(Azimuth.FromDegrees(120), horizonRad));
        using var process = Process.GetCurrentProcess();
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{across * across,5} {grid.Posts.Rows,6} {horizonRad.Length / 1e6,8:0.0} {seen!.Columns.Sum(column => column.Samples.Count) / 1e6,8:0.00} {surface,9:0.000} {scene.Patches.Count,8} {chart,8:0.00} {direction,8:0.00} {process.PeakWorkingSet64 / 1048576.0,8:0}"));
    }
}
