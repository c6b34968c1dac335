using System.Globalization;
using System.Text;
using System.Xml;

namespace Glowcast.Field.Pictures;

/// <summary>Writes a drawing as SVG that needs nothing but itself.</summary>
/// <param name="name">Begins all its ids, so that several drawings can stand in one page.</param>
internal sealed class SvgWriter(Drawing drawing, string name)
{
    private const string Fonts = "'Open Sans', 'Segoe UI', 'Helvetica Neue', Arial, sans-serif";
    private int clips;

    /// <summary>Without an XML declaration, so that it also stands inside a page.</summary>
    public string Write()
    {
        var text = new StringBuilder();
        using var xml = XmlWriter.Create(text, new XmlWriterSettings { OmitXmlDeclaration = true });
        xml.WriteStartElement("svg", "http://www.w3.org/2000/svg");
        Attributes(xml, ("viewBox", $"0 0 {N(drawing.Width)} {N(drawing.Height)}"), ("width", N(drawing.Width)), ("height", N(drawing.Height)), ("role", "img"), ("font-family", Fonts));
        xml.WriteElementString("title", drawing.Title);
        foreach (var texture in TexturesOf(drawing.Marks).DistinctBy(texture => texture.Name)) WriteTexture(xml, texture);
        foreach (var mark in drawing.Marks) WriteMark(xml, mark);
        xml.WriteEndElement();
        xml.Flush();
        return text.ToString();
    }

    private static IEnumerable<Texture> TexturesOf(IEnumerable<Mark> marks) => marks.SelectMany(mark => mark switch
    {
        Fill { Texture.IsPlain: false } fill => [fill.Texture],
        Clip clip => TexturesOf(clip.Marks),
        _ => (IEnumerable<Texture>)[],
    });

    private void WriteTexture(XmlWriter xml, Texture texture)
    {
        xml.WriteStartElement("pattern");
        Attributes(xml, ("id", $"{name}-{texture.Name}"), ("width", N(texture.Size)), ("height", N(texture.Size)), ("patternUnits", "userSpaceOnUse"));
        Element(xml, "rect", ("width", N(texture.Size)), ("height", N(texture.Size)), ("fill", texture.Ground.Hex));
        Element(xml, "path", ("d", string.Concat(texture.Dots.Select(dot => $"M{dot.X} {dot.Y}h1v1h-1z"))), ("fill", texture.Marked.Hex));
        xml.WriteEndElement();
    }

    private void WriteMark(XmlWriter xml, Mark mark)
    {
        switch (mark)
        {
            case Fill fill:
                Element(
                    xml, "path", ("d", string.Concat(fill.Boxes.Select(box => $"M{N(box.X)} {N(box.Y)}h{N(box.Width)}v{N(box.Height)}h{N(-box.Width)}z"))),
                    ("fill", fill.Texture.IsPlain ? fill.Texture.Ground.Hex : $"url(#{name}-{fill.Texture.Name})"), ("shape-rendering", "crispEdges"));
                break;
            case Outline outline:
                Element(xml, "path", [("d", $"{Path(outline.Points)}Z"), ("fill", outline.Inside?.Hex ?? "none"), .. Pen(outline.Edge)]);
                break;
            case Line line:
                Element(xml, "path", [("d", Path(line.Points)), ("fill", "none"), .. Pen(line.Pen)]);
                break;
            case Label label:
                WriteLabel(xml, label);
                break;
            case Photograph photograph:
                Element(xml, "image", [
                    .. Place(photograph.Box), ("preserveAspectRatio", "none"),
                    ("href", $"data:image/jpeg;base64,{Convert.ToBase64String(photograph.Image.ToJpeg())}")]);
                break;
            case Clip clip:
                WriteClip(xml, clip);
                break;
        }
    }

    private static void WriteLabel(XmlWriter xml, Label label)
    {
        xml.WriteStartElement("text");
        Attributes(xml, ("x", N(label.At.X)), ("y", N(label.At.Y)), ("font-size", N(label.Size)), ("fill", label.Colour.Hex));
        if (label.Anchor != Anchor.Start) Attributes(xml, ("text-anchor", label.Anchor == Anchor.Middle ? "middle" : "end"));
        if (label.Halo is { } halo)
            Attributes(xml, ("paint-order", "stroke"), ("stroke", halo.Hex), ("stroke-width", N(label.Size / 4)), ("stroke-linejoin", "round"), ("stroke-opacity", "0.8"));
        xml.WriteString(label.Text);
        xml.WriteEndElement();
    }

    private void WriteClip(XmlWriter xml, Clip clip)
    {
        var id = $"{name}-clip-{++clips}";
        xml.WriteStartElement("clipPath");
        Attributes(xml, ("id", id));
        Element(xml, "rect", [.. Place(clip.Box)]);
        xml.WriteEndElement();
        xml.WriteStartElement("g");
        Attributes(xml, ("clip-path", $"url(#{id})"));
        foreach (var mark in clip.Marks) WriteMark(xml, mark);
        xml.WriteEndElement();
    }

    private static IEnumerable<(string, string)> Pen(Pen? pen)
    {
        if (pen is null) yield break;
        yield return ("stroke", pen.Colour.Hex);
        if (pen.Width != 1) yield return ("stroke-width", N(pen.Width));
        if (pen.Opacity != 1) yield return ("stroke-opacity", N(pen.Opacity));
        if (pen.Dash.Count > 0) yield return ("stroke-dasharray", string.Join(' ', pen.Dash.Select(N)));
    }

    private static IEnumerable<(string, string)> Place(Box box) => [("x", N(box.X)), ("y", N(box.Y)), ("width", N(box.Width)), ("height", N(box.Height))];

    private static string Path(IReadOnlyList<Spot> points) => string.Concat(points.Select((point, i) => $"{(i == 0 ? 'M' : 'L')}{N(point.X)} {N(point.Y)}"));

    private static void Element(XmlWriter xml, string name, params ReadOnlySpan<(string, string)> attributes)
    {
        xml.WriteStartElement(name);
        Attributes(xml, attributes);
        xml.WriteEndElement();
    }

    private static void Attributes(XmlWriter xml, params ReadOnlySpan<(string Name, string Value)> attributes)
    {
        foreach (var (name, value) in attributes) xml.WriteAttributeString(name, value);
    }

    private static string N(double number) => Math.Round(number, 2).ToString(CultureInfo.InvariantCulture);
}
