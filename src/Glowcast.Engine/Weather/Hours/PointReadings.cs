using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>Values of fields at one place; each field is decoded once.</summary>
internal sealed class PointReadings(GeoPoint point)
{
    private readonly Dictionary<GribField, double?> known = [];

    public GeoPoint Point => point;

    /// <returns>Null for no field, outside its grid, or where a value is missing.</returns>
    public double? Of(GribField? field)
    {
        if (field is null) return null;
        if (known.TryGetValue(field, out var value)) return value;
        return known[field] = field.Grid.Locate(point) is null ? null : field.Grid.ValueAt(field.Values(), point) is { } read && double.IsFinite(read) ? read : null;
    }
}
