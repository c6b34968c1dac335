using Glowcast.Engine.Measures;

namespace Glowcast.Field.Words;

/// <summary>Lengths in the units of the reader.</summary>
internal static class Lengths
{
    private const double MetresPerFoot = 0.3048;
    private const double KilometresPerMile = 1.609344;

    // Metres are said whole; from here on a foot is finer than the figure it was made from.
    private const double FeetByFivesFromM = 100;

    /// <summary>To a metre, or to as much in feet: "737 m", "2420 ft".</summary>
    public static string Height(Length height, UnitSystem units) => $"{Figure(height, units)} {UnitOf(units)}";

    /// <summary>Both ends in the same unit: "700 to 737 m", "2295 to 2420 ft"; one height where they are the same.</summary>
    public static string HeightRange(Length low, Length high, UnitSystem units) => low == high ? Height(high, units) : $"{Figure(low, units)} to {Height(high, units)}";

    /// <summary>To a kilometre or a mile: "120 km", "75 mi".</summary>
    public static string Distance(Length distance, UnitSystem units) =>
        units == UnitSystem.Metric ? $"{distance.Kilometres:0} km" : $"{distance.Kilometres / KilometresPerMile:0} mi";

    private static string UnitOf(UnitSystem units) => units == UnitSystem.Metric ? "m" : "ft";

    private static string Figure(Length height, UnitSystem units)
    {
        if (units == UnitSystem.Metric) return $"{height.Metres:0}";
        var feet = height.Metres / MetresPerFoot;
        return Math.Abs(height.Metres) >= FeetByFivesFromM ? $"{5 * Math.Round(feet / 5):0}" : $"{feet:0}";
    }
}
