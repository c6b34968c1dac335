namespace MakeSamples;

/// <summary>Where the points of a square grid over the tile lie, in metres on a plane.</summary>
/// <remarks>Row 0 is northernmost and column 0 westernmost, as in the file. The tile is 1° by 1°; its sides are those at
/// 46.5° N on WGS84, the narrowing northward (1.8 %) is left out: the range is invented in grid points, not in metres.</remarks>
internal sealed class Lattice
{
    public const double WidthM = 76_762;
    public const double HeightM = 111_161;

    public Lattice(int size)
    {
        Size = size;
        EastStepM = WidthM / (size - 1);
        NorthStepM = HeightM / (size - 1);
        NeighbourOffsets = [-size - 1, -size, -size + 1, -1, 1, size - 1, size, size + 1];
        var diagonal = Math.Sqrt((EastStepM * EastStepM) + (NorthStepM * NorthStepM));
        NeighbourDistancesM = [diagonal, NorthStepM, diagonal, EastStepM, EastStepM, diagonal, NorthStepM, diagonal];
    }

    public int Size { get; }

    public int Count => Size * Size;

    public double EastStepM { get; }

    public double NorthStepM { get; }

    public double CellAreaM2 => EastStepM * NorthStepM;

    /// <summary>What to add to an index to reach each of the eight neighbours. Only for points off the rim.</summary>
    public int[] NeighbourOffsets { get; }

    /// <summary>In the order of <see cref="NeighbourOffsets"/>.</summary>
    public double[] NeighbourDistancesM { get; }

    public bool IsRim(int index)
    {
        var (row, column) = (index / Size, index % Size);
        return row == 0 || column == 0 || row == Size - 1 || column == Size - 1;
    }

    /// <summary>Kilometres east of the tile's western side.</summary>
    public double EastKm(int index) => index % Size * EastStepM / 1000;

    /// <summary>Kilometres north of the tile's southern side.</summary>
    public double NorthKm(int index) => (Size - 1 - (index / Size)) * NorthStepM / 1000;
}
