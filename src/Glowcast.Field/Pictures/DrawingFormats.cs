namespace Glowcast.Field.Pictures;

/// <summary>The files that a drawing can become.</summary>
internal static class DrawingFormats
{
    /// <param name="name">Begins all its ids.</param>
    public static string ToSvg(this Drawing drawing, string name) => new SvgWriter(drawing, name).Write();

    /// <param name="scale">Pixels to a unit of the drawing.</param>
    public static byte[] ToPng(this Drawing drawing, float scale = 2) => new PngPainter(drawing).Paint(scale);
}
