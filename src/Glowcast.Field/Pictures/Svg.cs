using System.Globalization;
using System.Xml.Linq;

namespace Glowcast.Field.Pictures;

/// <summary>The few elements of SVG 1.1 that the picture of a season is made of; lengths are in pixels.</summary>
internal static class Svg
{
    public static readonly XNamespace Name = "http://www.w3.org/2000/svg";

    public static XElement Group(IEnumerable<XElement> inner) => new(Name + "g", inner);

    public static XElement Rect(double x, double y, double width, double height, string style) => new(
        Name + "rect", At("x", x), At("y", y), At("width", width), At("height", height), new XAttribute("style", style));

    public static XElement Line(double x1, double y1, double x2, double y2, string style) => new(
        Name + "line", At("x1", x1), At("y1", y1), At("x2", x2), At("y2", y2), new XAttribute("style", style));

    public static XElement Path(string data, string style) => new(Name + "path", new XAttribute("d", data), new XAttribute("style", style));

    /// <param name="anchor">start, middle or end.</param>
    public static XElement Text(double x, double y, string text, string style, string anchor = "start") => new(
        Name + "text", At("x", x), At("y", y), new XAttribute("text-anchor", anchor), new XAttribute("style", style), text);

    public static XAttribute At(string name, double value) => new(name, value.ToString("0.##", CultureInfo.InvariantCulture));
}
