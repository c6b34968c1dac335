using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>Random ground, rough on every scale from three posts to two hundred, posts every 3″.</summary>
internal static class RoughGround
{
    private static readonly (int Posts, double HeightM)[] Scales = [(200, 600), (60, 250), (20, 100), (7, 40), (3, 15)];

    public static ElevationGrid Of(int seed, int size, int holes = 0)
    {
        var random = new Random(seed);
        var heights = new float[size * size];
        foreach (var (posts, heightM) in Scales) Add(heights, size, posts, heightM, random);
        for (var i = 0; i < holes; i++) heights[random.Next(heights.Length)] = float.NaN;
        return new ElevationGrid(new GridPosts(size, size, 47, 7, 1 / 1200.0, 1 / 1200.0), heights, "made for a test");
    }

    private static void Add(float[] heights, int size, int posts, double heightM, Random random)
    {
        var knots = (size / posts) + 2;
        var values = Enumerable.Range(0, knots * knots).Select(_ => random.NextDouble() * heightM).ToArray();
        for (var row = 0; row < size; row++)
        {
            for (var column = 0; column < size; column++)
            {
                var knot = (row / posts * knots) + (column / posts);
                var (u, v) = (Smooth(column % posts / (double)posts), Smooth(row % posts / (double)posts));
                var north = values[knot] + (u * (values[knot + 1] - values[knot]));
                var south = values[knot + knots] + (u * (values[knot + knots + 1] - values[knot + knots]));
                heights[(row * size) + column] += (float)(north + (v * (south - north)));
            }
        }
    }

    private static double Smooth(double t) => t * t * (3 - (2 * t));
}
