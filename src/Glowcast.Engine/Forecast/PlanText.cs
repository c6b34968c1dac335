using System.Text.Json;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Forecast;

/// <summary>The JSON text of a plan, before anything in it is asked for.</summary>
public static class PlanText
{
    private static readonly JsonDocumentOptions Strict = new() { MaxDepth = 16, AllowDuplicateProperties = false };

    /// <summary>Parses a plan, so that every name and text in it can be read.</summary>
    /// <param name="json">UTF-8.</param>
    /// <exception cref="BadInputException">Not JSON, a field given twice, or text that is no Unicode.</exception>
    public static JsonDocument Parse(ReadOnlyMemory<byte> json)
    {
        try
        {
            var document = JsonDocument.Parse(json, Strict);
            ReadAllTexts(document.RootElement);
            return document;
        }
        catch (InvalidOperationException)
        {
            // Bytes that are no UTF-8, or a text escaped as half of a surrogate pair: JSON lets both pass.
            throw new BadInputException("plan", "Has a name or text that is not valid Unicode; write it in UTF-8, and characters beyond \\uFFFF as they are or as both their \\u escapes.");
        }
        catch (JsonException broken)
        {
            throw new BadInputException("plan", $"Is not valid JSON: {broken.Message}");
        }
    }

    private static void ReadAllTexts(JsonElement element)
    {
        switch (element.ValueKind)
        {
            case JsonValueKind.Object:
                foreach (var property in element.EnumerateObject())
                {
                    _ = property.Name;
                    ReadAllTexts(property.Value);
                }
                break;
            case JsonValueKind.Array:
                foreach (var item in element.EnumerateArray()) ReadAllTexts(item);
                break;
            case JsonValueKind.String:
                _ = element.GetString();
                break;
        }
    }
}
