namespace Glowcast.Field.Pictures;

/// <summary>A place on a drawing, right and down from its upper left corner.</summary>
internal readonly record struct Spot(double X, double Y);

/// <summary>An upright rectangle of a drawing.</summary>
internal readonly record struct Box(double X, double Y, double Width, double Height)
{
    public double Right => X + Width;

    public double Bottom => Y + Height;

    public IReadOnlyList<Spot> Corners => [new(X, Y), new(Right, Y), new(Right, Bottom), new(X, Bottom)];
}

/// <summary>Something drawn.</summary>
internal abstract record Mark;

/// <summary>Rectangles filled alike.</summary>
internal sealed record Fill(Texture Texture, IReadOnlyList<Box> Boxes) : Mark;

/// <summary>A closed outline filled with a colour, edged with another, or both.</summary>
internal sealed record Outline(IReadOnlyList<Spot> Points, Rgb? Inside, Pen? Edge) : Mark;

/// <summary>A line from spot to spot.</summary>
internal sealed record Line(IReadOnlyList<Spot> Points, Pen Pen) : Mark
{
    public Line(Spot from, Spot to, Pen pen) : this([from, to], pen)
    {
    }
}

/// <summary>A word or two.</summary>
/// <param name="At">Of its baseline; <paramref name="Anchor"/> says which part of it.</param>
/// <param name="Halo">Drawn around the letters, to be read on anything; null for none.</param>
internal sealed record Label(string Text, Spot At, double Size, Anchor Anchor, Rgb Colour, Rgb? Halo = null) : Mark;

/// <summary>Marks cut off at the edges of a box.</summary>
internal sealed record Clip(Box Box, IReadOnlyList<Mark> Marks) : Mark;

/// <summary>Pixels stretched over a box.</summary>
internal sealed record Photograph(PixelImage Image, Box Box) : Mark;

/// <param name="Dash">Lengths of strokes and gaps in turn; empty for an unbroken line.</param>
internal sealed record Pen(Rgb Colour, double Width = 1, double Opacity = 1, params IReadOnlyList<double> Dash);

internal enum Anchor
{
    Start,
    Middle,
    End,
}
