namespace MakeSamples;

/// <summary>Where the water of every point goes, and how much land drains through it.</summary>
/// <remarks>Priority flood (Barnes, Lehman and Mulla 2014): the sea rises over the land from the shore inward; hollows
/// fill to their lowest outlet with a slight tilt, so every point has a way to the sea. Points equal in height are taken
/// in the order of their index, so the result is one and the same everywhere.</remarks>
internal sealed class Drainage
{
    private const double Tilt = 1e-5;

    private Drainage(Lattice lattice)
    {
        Order = new int[lattice.Count];
        FilledM = new double[lattice.Count];
        Receiver = new int[lattice.Count];
        DistanceM = new double[lattice.Count];
        AreaM2 = new double[lattice.Count];
    }

    /// <summary>All points, from the sea upward: a point comes after the one it drains to.</summary>
    public int[] Order { get; }

    /// <summary>Heights with the hollows filled.</summary>
    public double[] FilledM { get; }

    /// <summary>The neighbour a point drains to; itself at sea.</summary>
    public int[] Receiver { get; }

    /// <summary>To the receiver.</summary>
    public double[] DistanceM { get; }

    public double[] AreaM2 { get; }

    /// <param name="whim">Changes which of several nearly equal ways down is taken, so that rivers do not run dead straight
    /// along the grid.</param>
    public static Drainage Of(Ground ground, int whim)
    {
        var drainage = new Drainage(ground.Lattice);
        drainage.Flood(ground);
        drainage.Descend(ground, whim);
        drainage.Gather(ground.Lattice);
        return drainage;
    }

    private void Flood(Ground ground)
    {
        var lattice = ground.Lattice;
        var shore = new RisingWater(lattice.Count);
        var reached = new bool[lattice.Count];
        for (var i = 0; i < lattice.Count; i++)
            if (ground.IsSea[i])
            {
                reached[i] = true;
                shore.Push(0, i);
            }

        for (var next = 0; shore.Pop(out var level, out var i); next++)
        {
            Order[next] = i;
            FilledM[i] = level;
            if (lattice.IsRim(i))
                continue;
            foreach (var offset in lattice.NeighbourOffsets)
            {
                var neighbour = i + offset;
                if (reached[neighbour])
                    continue;
                reached[neighbour] = true;
                shore.Push(Math.Max(ground.HeightM[neighbour], level + Tilt), neighbour);
            }
        }
    }

    private void Descend(Ground ground, int whim)
    {
        var lattice = ground.Lattice;
        for (var i = 0; i < lattice.Count; i++)
        {
            Receiver[i] = i;
            if (ground.IsSea[i])
                continue;
            var steepest = 0.0;
            for (var k = 0; k < 8; k++)
            {
                var neighbour = i + lattice.NeighbourOffsets[k];
                var slope = (FilledM[i] - FilledM[neighbour]) / lattice.NeighbourDistancesM[k] * (0.75 + (0.5 * Noise.Hash(i, k, whim)));
                if (slope <= steepest)
                    continue;
                steepest = slope;
                Receiver[i] = neighbour;
                DistanceM[i] = lattice.NeighbourDistancesM[k];
            }
        }
    }

    private void Gather(Lattice lattice)
    {
        Array.Fill(AreaM2, lattice.CellAreaM2);
        for (var k = Order.Length - 1; k >= 0; k--)
        {
            var i = Order[k];
            if (Receiver[i] != i)
                AreaM2[Receiver[i]] += AreaM2[i];
        }
    }
}
