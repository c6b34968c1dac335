namespace Glowcast.Engine.Weather;

/// <summary>What a column of a sounding holds.</summary>
internal enum Quantity
{
    Pressure,
    Height,
    Temperature,
    DewPoint,
    WindFrom,
    WindSpeed,
}

/// <summary>The units in which soundings are written, turned into those of <see cref="SoundingLevel"/>.</summary>
internal static class Units
{
    internal const double KnotsPerMetreASecond = 3600 / 1852.0;

    /// <summary>How to turn a figure in a unit into hPa, m, °C, degrees or knots; null for a unit that is not known.</summary>
    public static Func<double, double>? Conversion(Quantity quantity, string unit) => quantity switch
    {
        Quantity.Pressure => unit switch
        {
            "hpa" or "mb" or "mbar" => value => value,
            "pa" => value => value / 100,
            "kpa" => value => value * 10,
            _ => null,
        },
        Quantity.Height => unit switch
        {
            "m" or "gpm" => value => value,
            "km" => value => value * 1000,
            "ft" => value => value * 0.3048,
            _ => null,
        },
        Quantity.Temperature or Quantity.DewPoint => unit switch
        {
            "c" or "degc" or "°c" => value => value,
            "k" => value => value - 273.15,
            "f" or "degf" or "°f" => value => (value - 32) / 1.8,
            _ => null,
        },
        Quantity.WindFrom => unit is "deg" or "degree" or "degrees" or "°" ? value => value : null,
        _ => unit switch
        {
            "kt" or "kts" or "knot" or "knots" => value => value,
            "m/s" or "ms" or "mps" => value => value * KnotsPerMetreASecond,
            "km/h" or "kmh" => value => value * 1000 / 1852,
            "mph" => value => value * 1609.344 / 1852,
            _ => null,
        },
    };

    /// <summary>The units known for a quantity, for faults.</summary>
    public static string Known(Quantity quantity) => quantity switch
    {
        Quantity.Pressure => "hPa, mb, Pa or kPa",
        Quantity.Height => "m, km or ft",
        Quantity.Temperature or Quantity.DewPoint => "C, K or F",
        Quantity.WindFrom => "deg",
        _ => "kt, m/s, km/h or mph",
    };
}
