using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Field.Pictures;

/// <summary>The ground that a lookout sees, pixel by pixel: how far and how high it is.</summary>
/// <remarks>Pixels are as high as they are wide in degrees. Below the nearest ground of the grid the raster shows that ground. Immutable.</remarks>
public sealed class RidgeRaster
{
    private readonly VisibleSample?[] ground;

    private RidgeRaster(VisibleSurface view, double topDeg, int rows)
    {
        (FromDeg, PixelDeg, TopDeg, Columns, Rows) = (view.Span.From.Degrees, view.ColumnWidth.Degrees, topDeg, view.Columns.Count, rows);
        ground = new VisibleSample?[Columns * rows];
        for (var column = 0; column < Columns; column++)
        {
            var seen = view.Columns[column];
            for (var row = 0; row < rows; row++) ground[(row * Columns) + column] = Seen(seen, Angle.FromDegrees(AltitudeDegOf(row)).Radians);
        }
    }

    /// <summary>Bearing of the left edge.</summary>
    public double FromDeg { get; }

    /// <summary>Apparent altitude of the upper edge.</summary>
    public double TopDeg { get; }

    /// <summary>Width and height of a pixel.</summary>
    public double PixelDeg { get; }

    public int Columns { get; }

    public int Rows { get; }

    /// <param name="columns">At least 1.</param>
    /// <param name="skyAboveDeg">Over the highest ground.</param>
    /// <param name="depthDeg">From there down.</param>
    public static RidgeRaster Of(Scene scene, int columns, double skyAboveDeg, double depthDeg)
    {
        ArgumentNullException.ThrowIfNull(scene);
        var view = VisibleSurface.From(scene.Grid, scene.Model, scene.Lookout, scene.Span, columns);
        var highestDeg = view.Columns.Max(column => column.Skyline is { } top ? double.RadiansToDegrees(top.AltitudeRad) : 0);
        return new RidgeRaster(view, highestDeg + skyAboveDeg, (int)Math.Ceiling((skyAboveDeg + depthDeg) / view.ColumnWidth.Degrees));
    }

    /// <summary>Of the middle of a row.</summary>
    public double AltitudeDegOf(int row) => TopDeg - ((row + 0.5) * PixelDeg);

    /// <summary>Null for sky.</summary>
    public VisibleSample? At(int column, int row) => ground[(row * Columns) + column];

    private static VisibleSample? Seen(VisibleColumn column, double altitudeRad) =>
        column.At(altitudeRad) ?? (column.Samples.Count > 0 && altitudeRad < column.Samples[0].AltitudeRad ? column.Samples[0] : null);
}
