using System.Globalization;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Server.Api;

/// <summary>The values of a query, read one by one: every fault is noted under the parameter's name, and parameters that
/// nobody asked for are faults too.</summary>
internal sealed class QueryFields(IQueryCollection query, Faults faults)
{
    private readonly List<string> known = [];

    /// <summary>An instant as an address carries it: a plus sign that nobody escaped arrives as a blank.</summary>
    /// <exception cref="BadInputException">Not an instant.</exception>
    public static Instant Moment(string text, string field) => TimeReader.Moment(text.Replace(' ', '+'), field);

    public bool Has(string name) => Text(name) is not null;

    /// <summary>A number in [min, max]; one that is not given takes the fallback, where there is one.</summary>
    public double Number(string name, double min, double max, double? fallback = null)
    {
        if (Text(name) is not { } text) return faults.InRange((double?)null, name, min, max, fallback);
        if (double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number)) return faults.InRange(number, name, min, max);
        faults.Add(name, $"Must be a number such as 46.5; got '{Shortened.To80(text)}'.");
        return min;
    }

    public double? NumberOrNone(string name, double min, double max) => Has(name) ? Number(name, min, max) : null;

    /// <summary>True or false; false where it is not given.</summary>
    public bool Flag(string name)
    {
        if (Text(name) is not { } text) return false;
        if (bool.TryParse(text, out var flag)) return flag;
        faults.Add(name, $"Must be true or false; got '{Shortened.To80(text)}'.");
        return false;
    }

    /// <param name="read">Makes a value of the text; gets the parameter's name for its faults.</param>
    public T? Optional<T>(string name, Func<string, string, T> read)
    {
        if (Text(name) is not { } text) return default;
        try
        {
            return read(text, name);
        }
        catch (BadInputException bad)
        {
            foreach (var fault in bad.Faults) faults.Add(fault.Field, fault.Message);
            return default;
        }
    }

    /// <summary>To be called when everything has been asked for.</summary>
    public void RefuseUnknown()
    {
        foreach (var name in query.Keys.Where(name => !known.Contains(name)))
            faults.Add(Shortened.To80(name), $"Is not known; here stand {string.Join(", ", known)}.");
    }

    private string? Text(string name)
    {
        var values = query[name];
        var isNew = !known.Contains(name);
        if (isNew) known.Add(name);
        if (isNew && values.Count > 1) faults.Add(name, $"Is given {values.Count} times; give it once.");
        return values.Count == 0 ? null : values[0];
    }
}
