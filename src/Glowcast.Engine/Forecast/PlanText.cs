using System.Text.Json;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Forecast;

/// <summary>The JSON text of a plan, before anything in it is asked for.</summary>
public static class PlanText
{
    private static readonly JsonDocumentOptions Strict = new() { MaxDepth = 16, AllowDuplicateProperties = false };

    /// <summary>Parses a plan, so that every name and text in it can be read.</summary>
    /// <param name="json">UTF-8.</param>
    /// <param name="field">What faults are noted under.</param>
    /// <exception cref="BadInputException">Not JSON, a field given twice, or text that is no Unicode.</exception>
    public static JsonDocument Parse(ReadOnlyMemory<byte> json, string field = "plan")
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
            throw new BadInputException(field, "Has a name or text that is not valid Unicode; write it in UTF-8, and characters beyond \\uFFFF as they are or as both their \\u escapes.");
        }
        catch (JsonException broken)
        {
            throw new BadInputException(field, Wording(json.Span, broken));
        }
    }

    private static string Wording(ReadOnlySpan<byte> json, JsonException broken)
    {
        if (json.Trim(" \t\r\n"u8).IsEmpty) return "Is empty; a JSON object in braces is expected.";
        if (broken is not { LineNumber: { } line, BytePositionInLine: { } before }) return $"Gives the field '{Shortened.To80(Quoted(broken.Message))}' twice in one object; give it once.";
        if (broken.Message.Contains("depth", StringComparison.Ordinal))
            return $"Is nested more than {Strict.MaxDepth} levels deep in line {line + 1}, at character {before + 1}; nothing that is read here needs so many.";
        // What the parser counts, and how it was called, is of no use to whoever wrote the text.
        var reason = broken.Message.Split(" LineNumber:")[0].TrimEnd('.');
        if (reason.Contains("isFinalBlock", StringComparison.Ordinal) || reason.Contains("reader options", StringComparison.Ordinal)) reason = "something is missing or should not be there";
        return $"Is not valid JSON in line {line + 1}, at character {before + 1}: {reason}.";
    }

    private static string Quoted(string message) => message[(message.IndexOf('\'', StringComparison.Ordinal) + 1)..message.LastIndexOf('\'')];

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
