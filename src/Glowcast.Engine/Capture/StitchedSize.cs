using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Capture;

/// <summary>How directions become places on the stitched picture.</summary>
public enum Projection
{
    /// <summary>X = f θ, Y = f tan φ: upright edges stay upright.</summary>
    Cylinder,

    /// <summary>X = f θ, Y = f φ.</summary>
    Equirectangular,

    /// <summary>X = f tan θ, Y = f tan φ / cos θ: straight edges stay straight; for narrow spans only.</summary>
    Rectilinear,
}

/// <summary>The pixels of the stitched picture between two altitudes, over a span, in one projection.</summary>
/// <remarks>docs/model.md, Capture eq. 9.</remarks>
public sealed record StitchedSize(Projection Projection, double WidthPx, double HeightPx)
{
    /// <summary>A flat picture this wide is stretched fourfold at its ends; nothing wider is offered.</summary>
    public static readonly Angle WidestFlat = Angle.FromDegrees(120);

    /// <summary>More than this shows in a print: common practice, no source.</summary>
    public const double MostStretch = 2;

    /// <summary>How much larger the picture is drawn where it is stretched most than in its middle, along a line.</summary>
    public double Stretch { get; init; } = 1;

    /// <summary>A print bears it.</summary>
    public bool IsForPrint => Stretch <= MostStretch;

    public double Megapixels => WidthPx * HeightPx / 1e6;

    /// <summary>Width over height.</summary>
    public double Aspect => WidthPx / HeightPx;

    /// <returns>The size, or nothing where the span is too wide for the projection.</returns>
    public static StitchedSize? Of(Projection projection, SetLayout layout) =>
        Of(projection, layout.Field.FocalLengthPx, layout.Span, layout.Clean.Bottom, layout.Clean.Top);

    internal static StitchedSize? Of(Projection projection, double focalPx, Angle span, Angle bottom, Angle top) => projection switch
    {
        Projection.Cylinder => new(projection, focalPx * span.Radians, focalPx * (top.Tan() - bottom.Tan())) { Stretch = 1 / Square(Farther(bottom, top).Cos()) },
        Projection.Equirectangular => new(projection, focalPx * span.Radians, focalPx * (top - bottom).Radians) { Stretch = 1 / Farther(bottom, top).Cos() },
        Projection.Rectilinear when span <= WidestFlat => Flat(focalPx, span / 2, bottom, top),
        Projection.Rectilinear => null,
        _ => throw new ArgumentOutOfRangeException(nameof(projection), projection, "No such projection."),
    };

    private static Angle Farther(Angle bottom, Angle top) => bottom.Abs() > top.Abs() ? bottom.Abs() : top.Abs();

    private static double Square(double value) => value * value;

    // An edge of constant altitude bends away from the horizon towards the ends: above it the middle cuts, below it the ends.
    private static StitchedSize Flat(double focalPx, Angle half, Angle bottom, Angle top)
    {
        var topTan = top.Radians > 0 ? top.Tan() : top.Tan() / half.Cos();
        var bottomTan = bottom.Radians < 0 ? bottom.Tan() : bottom.Tan() / half.Cos();
        return new(Projection.Rectilinear, 2 * focalPx * half.Tan(), Math.Max(0, focalPx * (topTan - bottomTan)))
        {
            Stretch = 1 / Square(half.Cos() * Farther(bottom, top).Cos()),
        };
    }
}
