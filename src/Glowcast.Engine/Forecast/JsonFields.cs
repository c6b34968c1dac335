using System.Text.Json;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Forecast;

/// <summary>One object of a JSON document, read field by field: every fault is noted under the field's path, and fields
/// that nobody asked for are faults too.</summary>
internal sealed class JsonFields
{
    private const int MostUnknown = 20;

    private readonly JsonElement? element;
    private readonly string path;
    private readonly string whole;
    private readonly Faults faults;
    private readonly List<string> known = [];

    /// <param name="element">Null where the document has no such object.</param>
    /// <param name="path">Of the object; empty for the whole document.</param>
    /// <param name="whole">What faults of the whole document are noted under.</param>
    public JsonFields(JsonElement? element, string path, Faults faults, string whole = "plan")
    {
        (this.path, this.faults, this.whole) = (path, faults, whole);
        if (element is { ValueKind: JsonValueKind.Object }) this.element = element;
        else if (element is { } other && other.ValueKind != JsonValueKind.Null)
            faults.Add(Here, $"Must be an object in braces; got {Describe(other)}.");
    }

    /// <summary>True where the document has this object at all.</summary>
    public bool IsPresent => element is not null;

    public JsonFields Object(string name) => new(Find(name), Path(name), faults);

    /// <summary>The objects of a list, one after the other; what is none in it is a fault under its place, and passed over.</summary>
    public IEnumerable<JsonFields> Objects(string name)
    {
        if (Find(name) is not { } list) yield break;
        if (list.ValueKind != JsonValueKind.Array) faults.Add(Path(name), $"Must be a list of objects in braces; got {Describe(list)}.");
        else
        {
            foreach (var (i, item) in list.EnumerateArray().Index())
            {
                var place = $"{Path(name)}[{i}]";
                if (item.ValueKind == JsonValueKind.Null) faults.Add(place, "Must be an object in braces; got null.");
                if (new JsonFields(item, place, faults) is { IsPresent: true } read) yield return read;
            }
        }
    }

    /// <summary>How many things a list has; 0 where there is none.</summary>
    public int Count(string name) => Find(name) is { ValueKind: JsonValueKind.Array } list ? list.GetArrayLength() : 0;

    /// <summary>What stands there, to be read by somebody else; null where it is missing or null.</summary>
    public JsonElement? Raw(string name) => Find(name);

    public bool Has(string name) => Find(name) is not null;

    public double Number(string name, double min, double max, double? fallback = null) =>
        IsUnreadable(name, JsonValueKind.Number, "a number") ? min : faults.InRange(Find(name)?.GetDouble(), Path(name), min, max, fallback);

    public double Positive(string name, double max, double? fallback = null) =>
        IsUnreadable(name, JsonValueKind.Number, "a number") ? max : faults.Positive(Find(name)?.GetDouble(), Path(name), max, fallback);

    public double? PositiveOrNone(string name, double max) => Has(name) ? Positive(name, max) : null;

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

    /// <summary>A text that must be there and say something; empty after a fault.</summary>
    /// <param name="right">What to give, such as "the name of the file".</param>
    public string Text(string name, string right)
    {
        if (!Has(name)) faults.Add(Path(name), $"Is missing; give {right}.");
        else if (Find(name) is { ValueKind: JsonValueKind.String } text && text.GetString()!.Length == 0) faults.Add(Path(name), $"Must not be empty; give {right}.");
        return Text(name) ?? "";
    }

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

    /// <summary>A list of so many numbers; null where it is missing, and after a fault.</summary>
    /// <param name="most">None is farther from zero.</param>
    public IReadOnlyList<double>? Numbers(string name, int count, double most)
    {
        if (Find(name) is not { } list) return null;
        if (list.ValueKind == JsonValueKind.Array && list.GetArrayLength() == count && list.EnumerateArray().All(item => item.ValueKind == JsonValueKind.Number && Math.Abs(item.GetDouble()) <= most))
            return [.. list.EnumerateArray().Select(item => item.GetDouble())];
        faults.Add(Path(name), $"Must be a list of {count} numbers, none beyond {most}; got {(list.ValueKind == JsonValueKind.Array ? $"a list of {list.GetArrayLength()}" : Describe(list))}.");
        return null;
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
        var unknown = here.EnumerateObject().Select(property => property.Name).Where(name => !known.Contains(name)).ToList();
        foreach (var name in unknown.Take(MostUnknown)) faults.Add(Path(Shortened.To80(name)), $"Is not known; here stand {string.Join(", ", known)}.");
        if (unknown.Count > MostUnknown) faults.Add(Here, $"Has {unknown.Count - MostUnknown} more fields that are not known.");
    }

    public void Add(string name, string message) => faults.Add(Path(name), message);

    private string Here => path.Length > 0 ? path : whole;

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
