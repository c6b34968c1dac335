using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>The ground that an eye sees over a bearing span: one column of visible samples a bearing.</summary>
/// <remarks>A sweep outwards from the eye on each bearing in steps of half a cell, keeping what stands above everything
/// nearer (the R2 way of Franklin &amp; Ray 1994). Its own error against exact lines of sight is under half a cell.</remarks>
public sealed class VisibleSurface
{
    private VisibleSurface(Place eye, BearingSpan span, IReadOnlyList<VisibleColumn> columns) =>
        (Eye, Span, Columns) = (eye, span, columns);

    public Place Eye { get; }

    public BearingSpan Span { get; }

    /// <summary>Clockwise; each stands for an equal part of the span, and looks along the middle of its part.</summary>
    public IReadOnlyList<VisibleColumn> Columns { get; }

    public Angle ColumnWidth => Span.Width / Columns.Count;

    /// <summary>Looks around from an eye.</summary>
    /// <param name="columns">How many columns to part the span into; at least 1.</param>
    public static VisibleSurface From(ElevationGrid grid, SightModel model, Place eye, BearingSpan span, int columns) => From(grid, model, eye, span, columns, 1);

    /// <param name="stepShare">Steps of the sweep, as a share of half a cell.</param>
    internal static VisibleSurface From(ElevationGrid grid, SightModel model, Place eye, BearingSpan span, int columns, double stepShare)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(columns, 1);
        var width = span.Width / columns;
        var seen = new VisibleColumn[columns];
        Parallel.For(0, columns, AllProcessors.Until(), () => new SurfaceSweep(grid, model, eye, stepShare), (i, _, sweep) =>
        {
            seen[i] = sweep.Along(span.From + (width * (i + 0.5)));
            return sweep;
        }, _ => { });
        return new VisibleSurface(eye, span, seen);
    }
}
