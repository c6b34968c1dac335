namespace Glowcast.Field.Words;

/// <summary>In which units lengths are said.</summary>
public enum UnitSystem
{
    Metric,

    /// <summary>Feet and statute miles (1959: exactly 0.3048 m and 1.609344 km).</summary>
    Imperial,
}
