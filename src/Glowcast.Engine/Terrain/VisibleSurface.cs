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
    public static VisibleSurface From(ElevationGrid grid, SightModel model, Place eye, BearingSpan span, int columns)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(columns, 1);
        var width = span.Width / columns;
        var seen = new VisibleColumn[columns];
        Parallel.For(0, columns, i => seen[i] = Sweep(grid, model, eye, span.From + (width * (i + 0.5))));
        return new VisibleSurface(eye, span, seen);
    }

    private static VisibleColumn Sweep(ElevationGrid grid, SightModel model, Place eye, Azimuth bearing)
    {
        var path = new CellPath(grid.Posts);
        path.Aim(eye.Point.Latitude.Radians, eye.Point.Longitude.Radians, bearing.Radians);
        var cellM = grid.Posts.CellSize.Metres;
        var (stepM, eyeM, drop) = (cellM / 2, eye.Height.Metres, model.DropPerMetre);
        var highestM = grid.Relief.Highest?.Metres ?? double.NegativeInfinity;
        var samples = new List<VisibleSample>();
        var greatest = double.NegativeInfinity;
        for (var step = 2; ; step++)
        {
            var distanceM = step * stepM;
            var cell = path.At(distanceM);
            if (!(cell.X >= 0 && cell.X <= grid.Posts.Columns - 1 && cell.Y >= 0 && cell.Y <= grid.Posts.Rows - 1))
                return new VisibleColumn(bearing, samples, stepM, Length.FromMetres(distanceM - stepM));
            var heightM = grid.HeightAtCells(cell.X, cell.Y);
            var slope = (heightM - eyeM) / distanceM;
            // The tangent of the apparent angle to first order in the drop; NaN, beside a hole, is never greater.
            var tangent = slope - (distanceM * drop * (1 + (slope * slope)));
            if (!(tangent > greatest)) continue;
            greatest = tangent;
            samples.Add(new VisibleSample(distanceM, heightM, Math.Atan(slope) - (distanceM * drop)));
        }
    }
}

/// <summary>One visible place of the ground on a bearing.</summary>
/// <param name="DistanceM">From the eye [m].</param>
/// <param name="HeightM">Of the ground [m].</param>
/// <param name="AltitudeRad">Apparent angle at the eye [rad].</param>
public readonly record struct VisibleSample(double DistanceM, double HeightM, double AltitudeRad);
