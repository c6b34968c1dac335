using System.Runtime.Intrinsics;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>The ways of rays from one place of a grid at any azimuth: worked out at a degree when it is first asked for, a cubic between degrees. Safe for many threads.</summary>
/// <remarks>Each way as eight numbers: the coefficients of k, k² and k³ of the offset aside [cells] and of the distance [m], how much it bends, and how
/// far aside a step of it goes at most. Between degrees they are told to 2e-7 of themselves: a hundredth of a metre at 40 km.</remarks>
internal sealed class WayTable(WaySectors sectors, Cell from)
{
    private readonly Vector256<float>[] ways = new Vector256<float>[sectors.Count];
    private readonly bool[] isMade = new bool[sectors.Count];

    /// <summary>Not all numbers where the way is not told by cubics.</summary>
    /// <param name="node">Of the degree before the azimuth.</param>
    /// <param name="share">From it to the next degree.</param>
    public Vector256<float> At(int node, float share)
    {
        // Lagrange's weights on the nodes −1, 0, 1 and 2.
        var (a, b) = (-share * (share - 1) * (share - 2) / 6, (share + 1) * (share - 1) * (share - 2) / 2);
        var (c, d) = (-(share + 1) * share * (share - 2) / 2, (share + 1) * share * (share - 1) / 6);
        return (Way(node - 1) * a) + (Way(node) * b) + (Way(node + 1) * c) + (Way(node + 2) * d);
    }

    // Two threads may make the same one; then it is written twice.
    private Vector256<float> Way(int node)
    {
        if (Volatile.Read(ref isMade[node])) return ways[node];
        ways[node] = sectors.Way(node, from);
        Volatile.Write(ref isMade[node], true);
        return ways[node];
    }
}

/// <summary>The whole degrees of the circle, those that step along one axis of a grid together, with two more on either side.</summary>
internal sealed class WaySectors
{
    private const int Degrees = 360;
    private const int Beside = 2;

    private readonly GridPosts posts;
    private readonly List<(int Degree, int Sector)> nodes = [];
    private readonly int[] nodeOf = new int[Degrees];
    private readonly int[] sectorOf = new int[Degrees];
    private readonly List<RayAxes> axes = [];

    public WaySectors(GridPosts posts)
    {
        this.posts = posts;
        var all = Enumerable.Range(0, Degrees).Select(degree => RayAxes.For(posts, Azimuth.FromDegrees(degree))).ToList();
        // From where one of them begins.
        var start = Enumerable.Range(0, Degrees).First(degree => all[degree] != all[(degree + Degrees - 1) % Degrees]);
        for (var i = 0; i < Degrees;)
        {
            var (first, count) = (start + i, 1);
            while (i + count < Degrees && all[(first + count) % Degrees] == all[first % Degrees]) count++;
            for (var degree = first - Beside; degree < first + count + Beside; degree++)
            {
                var whole = (degree + Degrees) % Degrees;
                if (degree >= first && degree < first + count) (nodeOf[whole], sectorOf[whole]) = (nodes.Count, axes.Count);
                nodes.Add((whole, axes.Count));
            }
            axes.Add(all[first % Degrees]);
            i += count;
        }
    }

    /// <summary>How many nodes there are.</summary>
    public int Count => nodes.Count;

    /// <summary>By which axes rays may step.</summary>
    public IReadOnlyList<RayAxes> Axes => axes;

    /// <summary>The sector of an azimuth, its node, and how far from there to the next one it is.</summary>
    public (int Sector, int Node, float Share) Of(double azimuthRad)
    {
        var degrees = azimuthRad * (Degrees / Math.Tau);
        if (degrees is < 0 or >= Degrees) degrees -= Degrees * Math.Floor(degrees / Degrees);
        var degree = Math.Min((int)degrees, Degrees - 1);
        return (sectorOf[degree], nodeOf[degree], (float)(degrees - degree));
    }

    /// <summary>The way of a node from a place; no numbers where it is not told by cubics.</summary>
    public Vector256<float> Way(int node, Cell from)
    {
        var (degree, sector) = nodes[node];
        var steps = axes[sector].Majors - 1;
        if (RayWay.Of(posts, axes[sector], Azimuth.FromDegrees(degree), from, steps) is not { } path) return Vector256.Create(float.NaN);
        return Vector256.Create(
            (float)path.Aside.C1, (float)path.Aside.C2, (float)path.Aside.C3, (float)path.Metres.C1, (float)path.Metres.C2, (float)path.Metres.C3,
            (float)path.Bend(steps), (float)path.Steepest(steps));
    }
}
