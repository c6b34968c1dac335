using BenchmarkDotNet.Attributes;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Benchmarks;

/// <summary>The kernels of the terrain on one tile: the one that the variable GLOWCAST_TILE names, else the invented range.</summary>
[MemoryDiagnoser]
public class TerrainKernels
{
    private readonly ElevationGrid grid;
    private readonly HorizonSweep sweep;
    private readonly HorizonFan fan;
    private readonly SightLines sights;
    private readonly float[] horizonRad;
    private readonly Place lookout;

    public TerrainKernels()
    {
        grid = Tiles.Read(Environment.GetEnvironmentVariable("GLOWCAST_TILE") ?? Tiles.Invented);
        sweep = new HorizonSweep(grid, SightModel.Usual);
        fan = new HorizonFan(grid, SightModel.Usual, [.. Enumerable.Range(0, 360).Select(degrees => Azimuth.FromDegrees(degrees))]);
        sights = new SightLines(grid, SightModel.Usual);
        horizonRad = new float[grid.Posts.Rows * grid.Posts.Columns];
        lookout = Tiles.Summit(grid);
    }

    [Params(20, 120)]
    public double AzimuthDeg { get; set; }

    [Benchmark]
    public void Sweep_of_the_whole_tile() => sweep.Run(Azimuth.FromDegrees(AzimuthDeg), horizonRad);

    [Benchmark]
    public void Fan_of_360_directions() => fan.Run([lookout], horizonRad.AsMemory(0, 360));

    [Benchmark]
    public TerrainHorizon Exact_ray() => sights.HorizonOf(lookout, Azimuth.FromDegrees(AzimuthDeg));

    [Benchmark]
    public VisibleSurface Visible_surface_all_round() =>
        VisibleSurface.From(grid, SightModel.Usual, lookout, Tiles.AllRound, 7200);
}
