using System.Xml.Linq;

namespace Glowcast.Field.Card;

/// <summary>Elements of a page; texts are escaped.</summary>
internal static class Markup
{
    public static XElement Element(string name, params object?[] content) => new(name, content);

    public static XAttribute Class(string name) => new("class", name);

    public static XElement Section(string name, string title, params object?[] content) => Element("section", Class(name), Element("h2", title), content);

    /// <summary>Names and what there is to say of them; those without a text are left out.</summary>
    public static XElement Facts(params IEnumerable<(string Name, string? Text)> facts) =>
        Element("dl", [.. facts.Where(fact => fact.Text is not null).Select(fact => Element("div", Element("dt", fact.Name), Element("dd", fact.Text)))]);

    public static XElement List(IEnumerable<string> items) => Element("ul", [.. items.Select(item => Element("li", item))]);

    public static XElement Table(IReadOnlyList<string> headings, IEnumerable<IReadOnlyList<string>> rows) => Element(
        "table",
        Element("thead", Element("tr", [.. headings.Select(heading => Element("th", new XAttribute("scope", "col"), heading))])),
        Element("tbody", [.. rows.Select(row => Element("tr", [.. row.Select(cell => Element("td", cell))]))]));
}
