using System.Text.Json;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Forecast;

/// <summary>One object of a JSON document, read field by field: every fault is noted under the field's path, and fields
/// that nobody asked for are faults too.</summary>
internal sealed class JsonFields
{
    private readonly JsonElement? element;
    private readonly string path;
    private readonly Faults faults;
    private readonly List<string> known = [];

    public JsonFields(JsonElement? element, string path, Faults faults)
    {
        (this.path, this.faults) = (path, faults);
        if (element is { ValueKind: JsonValueKind.Object }) this.element = element;
        else if (element is { } other && other.ValueKind != JsonValueKind.Null)
            faults.Add(path.Length > 0 ? path : "plan", $"Must be an object in braces; got {Describe(other)}.");
    }

    /// <summary>True where the document has this object at all.</summary>
    public bool IsPresent => element is not null;

    public JsonFields Object(string name) => new(Find(name), Path(name), faults);

    public bool Has(string name) => Find(name) is not null;

    public double Number(string name, double min, double max, double? fallback = null) =>
        IsUnreadable(name, JsonValueKind.Number, "a number") ? min : faults.InRange(Find(name)?.GetDouble(), Path(name), min, max, fallback);

    public double Positive(string name, double max, double? fallback = null) =>
        IsUnreadable(name, JsonValueKind.Number, "a number") ? max : faults.Positive(Find(name)?.GetDouble(), Path(name), max, fallback);

    public double? NumberOrNone(string name, double min, double max) => Has(name) ? Number(name, min, max) : null;

    public int Whole(string name, int min, int max, int? fallback = null)
    {
        if (IsUnreadable(name, JsonValueKind.Number, "a whole number")) return min;
        if (Find(name) is not { } value) return faults.InRange((int?)null, Path(name), min, max, fallback);
        if (value.TryGetInt32(out var number)) return faults.InRange(number, Path(name), min, max);
        faults.Add(Path(name), $"Must be a whole number from {min} to {max}; got {Describe(value)}.");
        return min;
    }

    public int? WholeOrNone(string name, int min, int max) => Has(name) ? Whole(name, min, max) : null;

    /// <summary>True or false; false where it is missing.</summary>
    public bool Flag(string name)
    {
        if (Find(name) is not { } value) return false;
        if (value.ValueKind is JsonValueKind.True or JsonValueKind.False) return value.GetBoolean();
        faults.Add(Path(name), $"Must be true or false; got {Describe(value)}.");
        return false;
    }

    public string? Text(string name) =>
        IsUnreadable(name, JsonValueKind.String, "a text in quotes") ? null : Find(name)?.GetString();

    public IReadOnlyList<string> Texts(string name)
    {
        if (Find(name) is not { } list) return [];
        if (list.ValueKind == JsonValueKind.Array && list.EnumerateArray().All(item => item.ValueKind == JsonValueKind.String))
            return [.. list.EnumerateArray().Select(item => item.GetString()!)];
        faults.Add(Path(name), $"Must be a list of texts such as [\"a\", \"b\"]; got {Describe(list)}.");
        return [];
    }

    /// <summary>A list of numbers greater than zero.</summary>
    public IReadOnlyList<double> Positives(string name, double max)
    {
        if (Find(name) is not { } list) return [];
        if (list.ValueKind == JsonValueKind.Array && list.EnumerateArray().All(item => item.ValueKind == JsonValueKind.Number && item.GetDouble() is > 0 and var value && value <= max))
            return [.. list.EnumerateArray().Select(item => item.GetDouble())];
        faults.Add(Path(name), $"Must be a list of numbers greater than 0 and at most {max}, such as [5, 10]; got {Describe(list)}.");
        return [];
    }

    /// <summary>One of a few words.</summary>
    public T Choice<T>(string name, T fallback, params ReadOnlySpan<(string Word, T Value)> choices)
    {
        if (IsUnreadable(name, JsonValueKind.String, "a text in quotes") || Find(name) is not { } value) return fallback;
        var words = new List<string>();
        foreach (var (word, choice) in choices)
        {
            if (word == value.GetString()) return choice;
            words.Add(word);
        }
        faults.Add(Path(name), $"Must be one of {string.Join(", ", words)}; got '{Shortened.To80(value.GetString()!)}'.");
        return fallback;
    }

    /// <summary>To be called when everything has been asked for.</summary>
    public void RefuseUnknown()
    {
        if (element is not { } here) return;
        foreach (var property in here.EnumerateObject())
            if (!known.Contains(property.Name))
                faults.Add(Path(Shortened.To80(property.Name)), $"Is not known; here stand {string.Join(", ", known)}.");
    }

    public void Add(string name, string message) => faults.Add(Path(name), message);

    private string Path(string name) => path.Length > 0 ? $"{path}.{name}" : name;

    /// <summary>The field's value; null where it is missing or null.</summary>
    private JsonElement? Find(string name)
    {
        if (!known.Contains(name)) known.Add(name);
        return element is { } here && here.TryGetProperty(name, out var value) && value.ValueKind != JsonValueKind.Null ? value : null;
    }

    private bool IsUnreadable(string name, JsonValueKind kind, string right)
    {
        if (Find(name) is not { } value || value.ValueKind == kind) return false;
        faults.Add(Path(name), $"Must be {right}; got {Describe(value)}.");
        return true;
    }

    private static string Describe(JsonElement value) => Shortened.To80(value.GetRawText());
}
