using System.Text.Json;
using System.Text.RegularExpressions;
using Glowcast.Engine.Measures;
using NodaTime.Text;

namespace Glowcast.Engine.Weather;

/// <summary>A JSON object with <c>station</c>, <c>valid</c> and a <c>profile</c> of levels
/// <c>pres</c> [hPa], <c>hght</c> [m], <c>tmpc</c>, <c>dwpc</c> [°C], <c>drct</c> [degrees], <c>sknt</c> [knots]; its units are fixed.</summary>
/// <remarks>Such answers are served with NaN in them, which is no JSON; NaN is read as a missing value.</remarks>
internal sealed partial class ProfileJsonFormat : ISoundingFormat
{
    public string Name => "JSON profile";

    public bool Recognises(string text) => text.AsSpan().TrimStart() is ['{', ..];

    public Sounding Read(string text, string name)
    {
        using var document = Parse(text, name);
        var root = document.RootElement;
        if (Find(root, "profiles") is { ValueKind: JsonValueKind.Array } profiles)
        {
            if (profiles.GetArrayLength() != 1) throw new BadInputException(name, $"Holds {profiles.GetArrayLength()} profiles; give one.");
            root = profiles[0];
        }
        if (Find(root, "profile") is not { ValueKind: JsonValueKind.Array } profile)
            throw new BadInputException(name, "Has no list named profile; a JSON profile is {\"profile\": [{\"pres\": 1000, \"hght\": 120, \"tmpc\": 7.4, \"dwpc\": 7.4, \"drct\": 20, \"sknt\": 6}, …]}.");
        var levels = profile.EnumerateArray().Select(LevelOf).ToList();
        return new Sounding(Name, [.. levels.OfType<SoundingLevel>()])
        {
            Station = Find(root, "station") is { ValueKind: JsonValueKind.String } station ? Shortened.To80(station.GetString()!) : null,
            At = Find(root, "valid") is { ValueKind: JsonValueKind.String } valid && InstantPattern.ExtendedIso.Parse(valid.GetString()!) is { Success: true } at ? at.Value : null,
            PassedOver = levels.Contains(null) ? [$"{levels.Count(level => level is null)} levels without a pressure were passed over."] : [],
        };
    }

    private static SoundingLevel? LevelOf(JsonElement level) => Number(level, "pres") is { } pressure
        ? new SoundingLevel(pressure, Number(level, "hght"), Number(level, "tmpc"), Number(level, "dwpc"), Number(level, "drct"), Number(level, "sknt"))
        : null;

    private static double? Number(JsonElement level, string name) =>
        Find(level, name) is { ValueKind: JsonValueKind.Number } number ? SoundingColumns.Number(number.GetRawText()) : null;

    private static JsonElement? Find(JsonElement element, string name) =>
        element.ValueKind == JsonValueKind.Object && element.TryGetProperty(name, out var value) ? value : null;

    private static JsonDocument Parse(string text, string name)
    {
        try
        {
            return JsonDocument.Parse(NaN().Replace(text, "null"), new JsonDocumentOptions { MaxDepth = 16 });
        }
        catch (JsonException broken)
        {
            throw new BadInputException(name, $"Begins like JSON, but is not valid in line {broken.LineNumber + 1}: it is cut off, damaged, or nested too deeply.");
        }
    }

    [GeneratedRegex(@"(?<=[:,\[]\s*)NaN\b")]
    private static partial Regex NaN();
}
