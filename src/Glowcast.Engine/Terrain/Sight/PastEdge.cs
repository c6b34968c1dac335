using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>What is taken to stand past a grid's edge.</summary>
public enum PastEdgeKind
{
    /// <summary>A smooth earth as high as the grid's own ground along the edge in that direction.</summary>
    AsTheEdge,

    /// <summary>A smooth earth of a height that was given.</summary>
    SmoothEarth,

    /// <summary>Nothing.</summary>
    Nothing,
}

/// <summary>What is taken to stand past a grid's edge, and how high. The default value is a smooth earth as high as the edge.</summary>
public readonly record struct PastEdge
{
    private PastEdge(PastEdgeKind kind, Length? height) => (Kind, Height) = (kind, height);

    public PastEdgeKind Kind { get; }

    /// <summary>Of a smooth earth whose height was given; else null.</summary>
    public Length? Height { get; }

    public static PastEdge AsTheEdge => default;

    public static PastEdge Nothing { get; } = new(PastEdgeKind.Nothing, null);

    /// <summary>A smooth earth of one height, or nothing where there is none.</summary>
    public static PastEdge OfHeight(Length? height) => height is { } given ? new PastEdge(PastEdgeKind.SmoothEarth, given) : Nothing;

    /// <inheritdoc cref="OfHeight"/>
    public static implicit operator PastEdge(Length? height) => OfHeight(height);

    /// <summary>The height of the smooth earth in one direction from a grid; null where nothing stands there.</summary>
    public Length? Towards(Azimuth azimuth, ElevationGrid grid)
    {
        ArgumentNullException.ThrowIfNull(grid);
        var heightM = HeightM(azimuth.Radians, grid);
        return double.IsNaN(heightM) ? null : Length.FromMetres(heightM);
    }

    /// <summary>The same in metres; NaN where nothing stands there.</summary>
    internal double HeightM(double azimuthRad, ElevationGrid grid) => Kind switch
    {
        PastEdgeKind.AsTheEdge => grid.EdgeHeights.TowardsM(azimuthRad),
        PastEdgeKind.SmoothEarth => Height!.Value.Metres,
        _ => double.NaN,
    };

    /// <summary>The most that it has in any direction [m]; −∞ for nothing.</summary>
    internal double HighestM(ElevationGrid grid) => Kind switch
    {
        PastEdgeKind.AsTheEdge => grid.EdgeHeights.HighestM,
        PastEdgeKind.SmoothEarth => Height!.Value.Metres,
        _ => double.NegativeInfinity,
    };
}
