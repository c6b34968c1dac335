using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>The part of a grid about some places: a rectangle of its rows and columns, so that large fields need not be kept whole.</summary>
internal sealed class GridPatch
{
    private const int Margin = 1;
    private readonly GribGrid grid;
    private readonly int firstI;
    private readonly int firstJ;
    private readonly int countI;
    private readonly int countJ;

    private GridPatch(GribGrid grid, int firstI, int firstJ, int countI, int countJ) =>
        (this.grid, this.firstI, this.firstJ, this.countI, this.countJ) = (grid, firstI, firstJ, countI, countJ);

    /// <summary>Null where none of the places lies in the grid.</summary>
    public static GridPatch? About(GribGrid grid, IEnumerable<GeoPoint> places)
    {
        var found = places.Select(grid.Locate).OfType<GridIndex>().ToList();
        if (found.Count == 0) return null;
        // Round the earth, columns are counted from that of the first place, whichever way is shorter.
        var middle = found[0].I;
        var columns = found.ConvertAll(index => grid.GoesRound ? middle + Math.IEEERemainder(index.I - middle, grid.Ni) : index.I);
        var (firstI, lastI) = ((int)Math.Floor(columns.Min()) - Margin, (int)Math.Ceiling(columns.Max()) + Margin);
        var (firstJ, lastJ) = (Math.Max(0, (int)Math.Floor(found.Min(index => index.J)) - Margin), Math.Min(grid.Nj - 1, (int)Math.Ceiling(found.Max(index => index.J)) + Margin));
        if (!grid.GoesRound) (firstI, lastI) = (Math.Max(0, firstI), Math.Min(grid.Ni - 1, lastI));
        return new GridPatch(grid, firstI, firstJ, Math.Min(lastI - firstI + 1, grid.Ni + 1), lastJ - firstJ + 1);
    }

    /// <summary>The values of the rectangle, row by row.</summary>
    public float[] Cut(GribValues values)
    {
        var cut = new float[countI * countJ];
        for (var j = 0; j < countJ; j++)
            for (var i = 0; i < countI; i++)
                cut[(j * countI) + i] = (float)values[grid.DataIndex(Wrapped(firstI + i), firstJ + j)];
        return cut;
    }

    /// <summary>Where a place lies in the rectangle; null outside.</summary>
    public PatchCell? CellAt(GeoPoint place)
    {
        if (grid.Locate(place) is not { } index) return null;
        var (i, j) = (index.I - firstI, index.J - firstJ);
        if (grid.GoesRound) i -= grid.Ni * Math.Floor(i / grid.Ni);
        if (i < 0 || j < 0 || i > countI - 1 || j > countJ - 1) return null;
        var (column, row) = (Math.Min((int)i, Math.Max(0, countI - 2)), Math.Min((int)j, Math.Max(0, countJ - 2)));
        return new PatchCell((row * countI) + column, countI > 1 ? 1 : 0, countJ > 1 ? countI : 0, (float)(i - column), (float)(j - row));
    }

    private int Wrapped(int i) => grid.GoesRound ? ((i % grid.Ni) + grid.Ni) % grid.Ni : i;
}

/// <summary>Four neighbouring values of a rectangle and the shares of a place between them.</summary>
internal readonly record struct PatchCell(int At, int Along, int Across, float I, float J)
{
    /// <summary>NaN where one of the four is missing.</summary>
    public float Value(float[] values) =>
        ((1 - J) * (((1 - I) * values[At]) + (I * values[At + Along]))) + (J * (((1 - I) * values[At + Across]) + (I * values[At + Along + Across])));
}
