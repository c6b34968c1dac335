using System.Globalization;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>Which column of a table holds what, and in which unit; turns the words of a row into a level.</summary>
internal sealed class SoundingColumns
{
    private readonly (int Index, Func<double, double> Convert)?[] places = new (int, Func<double, double>)?[Enum.GetValues<Quantity>().Length];
    private readonly string name;

    public SoundingColumns(string name) => this.name = name;

    /// <exception cref="BadInputException">The unit is not known, or another column holds the same.</exception>
    public void Add(Quantity quantity, int index, string heading, string unit)
    {
        var convert = Units.Conversion(quantity, unit.ToLowerInvariant())
            ?? throw new BadInputException(name, $"Column {heading} {(unit.Length == 0 ? "does not name its unit" : $"is in a unit that is not known ('{Shortened.To80(unit)}')")}; {Units.Known(quantity)} would be right.");
        if (places[(int)quantity] is not null) throw new BadInputException(name, $"Column {heading} holds the same as another column; keep one of the two.");
        places[(int)quantity] = (index, convert);
    }

    /// <exception cref="BadInputException">Pressure, temperature or dew point are missing.</exception>
    public void MustSuffice()
    {
        var missing = new[] { Quantity.Pressure, Quantity.Temperature, Quantity.DewPoint }.Where(quantity => places[(int)quantity] is null).ToList();
        if (missing.Count > 0)
            throw new BadInputException(name, $"Has no column for {string.Join(", ", missing.Select(Say))}; pressure, temperature and dew point are needed, each with its unit.");
    }

    /// <summary>The level that a row of words describes; null where it has no pressure.</summary>
    /// <param name="word">The word of a column; empty or a missing code for none.</param>
    public SoundingLevel? LevelOf(Func<int, string> word) => Value(Quantity.Pressure, word) is { } pressure
        ? new SoundingLevel(
            pressure, Value(Quantity.Height, word), Value(Quantity.Temperature, word), Value(Quantity.DewPoint, word),
            Value(Quantity.WindFrom, word), Value(Quantity.WindSpeed, word))
        : null;

    /// <summary>A number; null for a blank, a word such as NaN, and the codes for missing values.</summary>
    public static double? Number(string word) =>
        double.TryParse(word, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number) && !IsMissingCode(number) ? number : null;

    private static bool IsMissingCode(double number) => number is -9999 or -8888 or -999 or -99.99 or 9999 or 99999;

    private double? Value(Quantity quantity, Func<int, string> word) =>
        places[(int)quantity] is { } place && Number(word(place.Index)) is { } number ? place.Convert(number) : null;

    private static string Say(Quantity quantity) => quantity switch
    {
        Quantity.DewPoint => "the dew point",
        Quantity.Temperature => "the temperature",
        _ => "the pressure",
    };
}
