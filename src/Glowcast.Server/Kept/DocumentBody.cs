using System.Text.Json;
using System.Text.RegularExpressions;
using Glowcast.Engine.Measures;

namespace Glowcast.Server.Kept;

/// <summary>What a client sends to be kept: a name for people, and the thing itself.</summary>
internal sealed partial record DocumentBody(string Name, JsonElement Thing)
{
    private const int LongestName = 120;

    /// <param name="id">Of the address it is to be kept under.</param>
    /// <param name="sounding">That the thing names, where it is a plan.</param>
    /// <exception cref="BadInputException">Something in it is missing or wrong; names every field.</exception>
    public static DocumentBody Read(string id, JsonElement body, DocumentKind kind, NamedSounding sounding)
    {
        var faults = new Faults();
        if (!IsId(id)) faults.Add("id", "Must be of small letters, digits and hyphens, at most 64, such as west-saddle.");
        if (body.ValueKind != JsonValueKind.Object) throw new BadInputException("body", "Must be a JSON object in braces.");
        foreach (var unknown in body.EnumerateObject().Where(field => field.Name != "name" && field.Name != kind.Field))
            faults.Add(Shortened.To80(unknown.Name), $"Is not known; here stand name, {kind.Field}.");
        var name = ReadName(body, faults);
        var thing = ThingIn(body, kind);
        kind.Judge(thing, sounding, faults);
        faults.ThrowIfAny();
        return new DocumentBody(name, thing);
    }

    /// <summary>The thing itself, of no kind where it is missing.</summary>
    public static JsonElement ThingIn(JsonElement body, DocumentKind kind) =>
        body.ValueKind == JsonValueKind.Object && body.TryGetProperty(kind.Field, out var thing) ? thing : default;

    public static bool IsId(string text) => UsableId().IsMatch(text);

    private static string ReadName(JsonElement body, Faults faults)
    {
        var name = body.TryGetProperty("name", out var given) && given.ValueKind == JsonValueKind.String ? given.GetString()!.Trim() : "";
        if (name.Length is 0 or > LongestName || name.Any(char.IsControl))
            faults.Add("name", $"Must be a text of 1 to {LongestName} characters without line breaks.");
        return name;
    }

    [GeneratedRegex(@"^[a-z0-9][a-z0-9-]{0,63}\z", RegexOptions.CultureInvariant)]
    private static partial Regex UsableId();
}
