using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>Where a point lies among those of a grid: index i along rows and j across them, from the first point in the
/// directions of the scan, with fractions between points.</summary>
public readonly record struct GridIndex(double I, double J);

/// <summary>The points on earth that a field has values for (GRIB 2, section 3).</summary>
public abstract class GribGrid
{
    /// <summary>How far beyond its last row or column a point still counts as on it, in cells.</summary>
    private const double OnEdge = 1e-6;

    private readonly ScanOrder order;

    private protected GribGrid(int template, ScanOrder order, byte[] section)
    {
        (Template, Section) = (template, section);
        this.order = order;
    }

    /// <summary>Number of the grid definition template: 0 for 3.0.</summary>
    public int Template { get; }

    public int Ni => order.Ni;

    public int Nj => order.Nj;

    public long Points => (long)Ni * Nj;

    /// <summary>As users know it.</summary>
    public abstract string Name { get; }

    /// <summary>The row closes round the earth: behind its last point comes its first.</summary>
    public virtual bool GoesRound => false;

    /// <summary>The section as it stands in the file.</summary>
    internal byte[] Section { get; }

    internal ScanOrder Order => order;

    /// <summary>Where a point lies in the grid; null outside of it.</summary>
    public GridIndex? Locate(GeoPoint point)
    {
        if (IndexOf(point) is not { } index || !double.IsFinite(index.I) || !double.IsFinite(index.J)) return null;
        var i = GoesRound ? index.I - (Ni * Math.Floor(index.I / Ni)) : OnGrid(index.I, Ni);
        var j = OnGrid(index.J, Nj);
        return double.IsNaN(i) || double.IsNaN(j) ? null : new GridIndex(i, j);
    }

    /// <summary>The value at a place: of the nearest point, or bilinear between the four about it, in steps of the grid itself.</summary>
    /// <returns>Null outside the grid; NaN where a value that counts is missing.</returns>
    public double? ValueAt(GribValues values, GeoPoint point, bool nearest = false)
    {
        ArgumentNullException.ThrowIfNull(values);
        if (Locate(point) is not { } index) return null;
        return nearest ? values[DataIndex(Column((int)Math.Round(index.I)), (int)Math.Round(index.J))] : CellAt(index).Value(values);
    }

    /// <summary>The points about a place that its value is worked out from.</summary>
    internal GridCell CellAt(GridIndex index)
    {
        var (i, j) = ((int)index.I, (int)index.J);
        var (nextI, nextJ) = (Column(i + 1), Math.Min(j + 1, Nj - 1));
        return new GridCell(DataIndex(Column(i), j), DataIndex(nextI, j), DataIndex(Column(i), nextJ), DataIndex(nextI, nextJ), index.I - i, index.J - j);
    }

    private int Column(int i) => GoesRound ? i % Ni : Math.Min(i, Ni - 1);

    /// <summary>Where a point of the grid is.</summary>
    public abstract GeoPoint PointAt(double i, double j);

    /// <summary>By which angle [rad] grid north lies clockwise of true north at a place; 0 where winds are given east and north.</summary>
    public virtual double TurnRad(GeoPoint point) => 0;

    /// <summary>The width of a cell about the middle of the grid.</summary>
    public abstract Length CellSize { get; }

    /// <summary>As <see cref="Locate"/>, but beyond the edges too; null where the projection has no place for the point.</summary>
    private protected abstract GridIndex? IndexOf(GeoPoint point);

    /// <summary>The place in the data of a point of the grid.</summary>
    internal int DataIndex(int i, int j) => order.IndexOf(i, j);

    private static double OnGrid(double index, int count) => index < -OnEdge || index > count - 1 + OnEdge ? double.NaN : Math.Clamp(index, 0, count - 1);
}

/// <summary>Four points of a grid about a place, by their places in the data, and how far the place is from the first of them.</summary>
/// <param name="I">Share of the step along the row.</param>
/// <param name="J">Share of the step across.</param>
internal readonly record struct GridCell(int Here, int Along, int Across, int Opposite, double I, double J)
{
    /// <summary>NaN where a value that counts is missing.</summary>
    public double Value(GribValues values) =>
        Part((1 - I) * (1 - J), values[Here]) + Part(I * (1 - J), values[Along]) + Part((1 - I) * J, values[Across]) + Part(I * J, values[Opposite]);

    /// <summary>A missing value without weight does not count.</summary>
    private static double Part(double weight, double value) => weight < 1e-9 ? 0 : weight * value;
}
