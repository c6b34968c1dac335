using SkiaSharp;

namespace Glowcast.Field.Pictures;

/// <summary>Paints a drawing as PNG, with a font of its own, so that it looks the same on every machine.</summary>
/// <remarks>Open Sans, Apache License 2.0 (OpenSans-LICENSE.txt).</remarks>
internal sealed class PngPainter(Drawing drawing)
{
    private static readonly Lazy<SKTypeface> Typeface = new(LoadTypeface);

    public byte[] Paint(float scale)
    {
        using var surface = SKSurface.Create(new SKImageInfo((int)Math.Ceiling(drawing.Width * scale), (int)Math.Ceiling(drawing.Height * scale)));
        surface.Canvas.Scale(scale);
        foreach (var mark in drawing.Marks) PaintMark(surface.Canvas, mark);
        using var image = surface.Snapshot();
        using var encoded = image.Encode(SKEncodedImageFormat.Png, 100);
        return encoded.ToArray();
    }

    private static void PaintMark(SKCanvas canvas, Mark mark)
    {
        switch (mark)
        {
            case Fill fill:
                PaintFill(canvas, fill);
                break;
            case Outline outline:
                using (var path = PathOf(outline.Points, isClosed: true))
                {
                    if (outline.Inside is { } inside) PaintPath(canvas, path, new SKPaint { Color = Colour(inside), IsAntialias = true });
                    if (outline.Edge is { } edge) PaintPath(canvas, path, PaintOf(edge));
                }
                break;
            case Line line:
                using (var path = PathOf(line.Points, isClosed: false)) PaintPath(canvas, path, PaintOf(line.Pen));
                break;
            case Label label:
                PaintLabel(canvas, label);
                break;
            case Photograph photograph:
                using (var bitmap = photograph.Image.ToBitmap())
                using (var image = SKImage.FromBitmap(bitmap))
                    canvas.DrawImage(image, Rect(photograph.Box), new SKSamplingOptions(SKCubicResampler.Mitchell));
                break;
            case Clip clip:
                canvas.Save();
                canvas.ClipRect(Rect(clip.Box));
                foreach (var inner in clip.Marks) PaintMark(canvas, inner);
                canvas.Restore();
                break;
        }
    }

    private static void PaintFill(SKCanvas canvas, Fill fill)
    {
        using var tile = new SKBitmap(fill.Texture.Size, fill.Texture.Size);
        tile.Erase(Colour(fill.Texture.Ground));
        foreach (var (x, y) in fill.Texture.Dots) tile.SetPixel(x, y, Colour(fill.Texture.Marked));
        using var paint = new SKPaint();
        paint.Shader = SKShader.CreateBitmap(tile, SKShaderTileMode.Repeat, SKShaderTileMode.Repeat);
        foreach (var box in fill.Boxes) canvas.DrawRect(Rect(box), paint);
    }

    private static void PaintLabel(SKCanvas canvas, Label label)
    {
        using var font = new SKFont(Typeface.Value, (float)label.Size);
        var align = label.Anchor switch
        {
            Anchor.Middle => SKTextAlign.Center,
            Anchor.End => SKTextAlign.Right,
            _ => SKTextAlign.Left,
        };
        if (label.Halo is { } halo)
        {
            using var around = new SKPaint { Color = Colour(halo, 0.8), IsAntialias = true, IsStroke = true, StrokeWidth = (float)(label.Size / 4), StrokeJoin = SKStrokeJoin.Round };
            canvas.DrawText(label.Text, (float)label.At.X, (float)label.At.Y, align, font, around);
        }
        using var paint = new SKPaint { Color = Colour(label.Colour), IsAntialias = true };
        canvas.DrawText(label.Text, (float)label.At.X, (float)label.At.Y, align, font, paint);
    }

    private static void PaintPath(SKCanvas canvas, SKPath path, SKPaint paint)
    {
        using (paint) canvas.DrawPath(path, paint);
    }

    private static SKPaint PaintOf(Pen pen) => new()
    {
        Color = Colour(pen.Colour, pen.Opacity),
        StrokeWidth = (float)pen.Width,
        IsStroke = true,
        IsAntialias = true,
        PathEffect = pen.Dash.Count > 0 ? SKPathEffect.CreateDash([.. pen.Dash.Select(length => (float)length)], 0) : null,
    };

    private static SKPath PathOf(IReadOnlyList<Spot> points, bool isClosed)
    {
        using var builder = new SKPathBuilder();
        builder.MoveTo((float)points[0].X, (float)points[0].Y);
        foreach (var point in points.Skip(1)) builder.LineTo((float)point.X, (float)point.Y);
        if (isClosed) builder.Close();
        return builder.Detach();
    }

    private static SKRect Rect(Box box) => new((float)box.X, (float)box.Y, (float)box.Right, (float)box.Bottom);

    private static SKColor Colour(Rgb colour, double opacity = 1) => new(colour.R, colour.G, colour.B, (byte)Math.Round(255 * opacity));

    private static SKTypeface LoadTypeface()
    {
        using var stream = typeof(PngPainter).Assembly.GetManifestResourceStream("OpenSans-Regular.ttf")
            ?? throw new InvalidOperationException("This program was built without its font.");
        using var data = SKData.Create(stream);
        return SKTypeface.FromData(data);
    }
}
