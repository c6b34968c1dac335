using System.Text;
using System.Xml;
using System.Xml.Linq;

namespace Glowcast.Field.Card;

/// <summary>The frame of the page: its style inside it, and a switch for the night that needs no script.</summary>
internal static class CardPage
{
    public static string Write(string title, IEnumerable<XElement> content)
    {
        var page = new StringBuilder("<!DOCTYPE html>\n");
        var html = Markup.Element(
            "html", new XAttribute("lang", "en"),
            Markup.Element(
                "head",
                Markup.Element("meta", new XAttribute("charset", "utf-8")),
                Markup.Element("meta", new XAttribute("name", "viewport"), new XAttribute("content", "width=device-width, initial-scale=1")),
                Markup.Element("title", title),
                Markup.Element("style", Style())),
            Markup.Element(
                "body",
                Markup.Element("input", new XAttribute("type", "checkbox"), new XAttribute("id", "night")),
                Markup.Element("label", new XAttribute("for", "night"), "night"),
                content, NightFilter()));
        using (var xml = XmlWriter.Create(page, new XmlWriterSettings { OmitXmlDeclaration = true })) html.Save(xml);
        return page.Append('\n').ToString();
    }

    /// <summary>Makes pictures dim and red, whatever their colours.</summary>
    private static XElement NightFilter()
    {
        XNamespace svg = "http://www.w3.org/2000/svg";
        return new XElement(
            svg + "svg", new XAttribute("width", 0), new XAttribute("height", 0), new XAttribute("style", "position: absolute"), new XAttribute("aria-hidden", "true"),
            new XElement(
                svg + "filter", new XAttribute("id", "red"),
                new XElement(svg + "feColorMatrix", new XAttribute("values", ".15 .38 .08 0 -.06 0 .04 .01 0 0 0 .02 .01 0 0 0 0 0 1 0"))));
    }

    // The style holds none of the signs that a page would have to escape.
    private static string Style()
    {
        using var stream = typeof(CardPage).Assembly.GetManifestResourceStream("card.css") ?? throw new InvalidOperationException("This program was built without card.css.");
        using var text = new StreamReader(stream);
        return text.ReadToEnd();
    }
}
