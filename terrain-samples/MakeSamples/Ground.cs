namespace MakeSamples;

/// <summary>The land as it stands at one step of its making: a height [m above the sea] for every point.</summary>
internal sealed class Ground(Lattice lattice)
{
    private const int Seed = 4421;

    public Lattice Lattice { get; } = lattice;

    public double[] HeightM { get; } = new double[lattice.Count];

    /// <summary>Sea stays at 0 m and takes all rivers.</summary>
    public bool[] IsSea { get; } = Coast.Sea(lattice);

    /// <summary>The same land on a grid of half the spacing, bent sideways by a few points, so that valleys which the coarse
    /// grid laid along its rows, columns and diagonals wind like others.</summary>
    public Ground Refine()
    {
        var fine = new Ground(new Lattice((2 * Lattice.Size) - 1));
        for (var i = 0; i < fine.Lattice.Count; i++)
            if (!fine.IsSea[i])
                fine.HeightM[i] = HeightAtBent(fine.Lattice.EastKm(i), fine.Lattice.NorthKm(i));
        return fine;
    }

    private double HeightAtBent(double eastKm, double northKm)
    {
        var spacingKm = Lattice.NorthStepM / 1000;
        var (u, v) = (eastKm / (9 * spacingKm), northKm / (9 * spacingKm));
        var bend = 2.2 * spacingKm;
        return HeightAt(
            eastKm + (bend * Noise.Layered(u, v, 2, Seed + Lattice.Size)),
            northKm + (bend * Noise.Layered(u, v, 2, Seed + Lattice.Size + 7)));
    }

    // Between the points by straight lines.
    private double HeightAt(double eastKm, double northKm)
    {
        var last = Lattice.Size - 1;
        var x = Math.Clamp(eastKm * 1000 / Lattice.EastStepM, 0, last);
        var y = Math.Clamp(last - (northKm * 1000 / Lattice.NorthStepM), 0, last);
        var (column, row) = (Math.Min((int)x, last - 1), Math.Min((int)y, last - 1));
        var (u, v, i) = (x - column, y - row, (row * Lattice.Size) + column);
        return ((1 - v) * (((1 - u) * HeightM[i]) + (u * HeightM[i + 1])))
            + (v * (((1 - u) * HeightM[i + Lattice.Size]) + (u * HeightM[i + Lattice.Size + 1])));
    }
}
