using System.Text;
using System.Xml;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>A note that GDAL keeps in tag 42112, as XML: items in one list, each a text with a few attributes.</summary>
/// <remarks>Read one piece after another and never deeper than such notes go, whatever is written there.</remarks>
internal sealed record GdalItem(string? Sample, string? Role, string? Name, string Text)
{
    private const int MostItems = 10_000;
    private const int DeepestLevel = 8;
    private const int LongestText = 4096;

    /// <exception cref="BadInputException">Damaged, or such as nobody writes.</exception>
    public static IReadOnlyList<GdalItem> Read(string xml, string fileName)
    {
        try
        {
            using var reader = XmlReader.Create(new StringReader(xml), new XmlReaderSettings { DtdProcessing = DtdProcessing.Prohibit, XmlResolver = null, IgnoreComments = true, IgnoreProcessingInstructions = true });
            return Items(reader, fileName);
        }
        catch (XmlException fault)
        {
            throw new BadInputException(fileName, $"Its notes on scale and unit (tag 42112) are damaged in line {fault.LineNumber}, at character {fault.LinePosition}.");
        }
    }

    private static List<GdalItem> Items(XmlReader reader, string fileName)
    {
        var (items, text, open) = (new List<GdalItem>(), new StringBuilder(), (GdalItem?)null);
        while (reader.Read())
        {
            if (reader.Depth > DeepestLevel || items.Count > MostItems) throw new BadInputException(fileName, $"Its notes on scale and unit (tag 42112) are no list of notes: they go deeper than {DeepestLevel} levels, or are more than {MostItems}.");
            if (reader is { NodeType: XmlNodeType.Element, Depth: 1, LocalName: "Item" })
            {
                open = new GdalItem(reader.GetAttribute("sample"), reader.GetAttribute("role"), reader.GetAttribute("name"), "");
                if (reader.IsEmptyElement) items.Add(open);
                text.Clear();
            }
            else if (reader is { NodeType: XmlNodeType.EndElement, Depth: 1 } && open is not null)
            {
                items.Add(open with { Text = text.ToString() });
                open = null;
            }
            else if (reader.NodeType is XmlNodeType.Text or XmlNodeType.CDATA or XmlNodeType.SignificantWhitespace or XmlNodeType.Whitespace && open is not null && text.Length < LongestText)
            {
                text.Append(reader.Value);
            }
        }
        return items;
    }
}
