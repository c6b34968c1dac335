using System.Globalization;
using System.Text.RegularExpressions;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>How a reported visibility is to be taken.</summary>
public enum VisibilityBound
{
    /// <summary>As it is.</summary>
    Measured,

    /// <summary>The air may be as much clearer as it likes: reports end there.</summary>
    AtLeast,

    /// <summary>It is less than that.</summary>
    LessThan,
}

/// <summary>A visibility as an airfield reports it, or as a number. "10 km or more" is a lower limit, and nothing is ever
/// worked out of it.</summary>
/// <param name="Range">The distance reported.</param>
/// <param name="IsAirfields">From a report for aviation: the distance at which 5 % of contrast is left. Else the meteorological range, 2 %.</param>
public sealed partial record ReportedVisibility(Length Range, VisibilityBound Bound, bool IsAirfields)
{
    private const double MetresPerStatuteMile = 1609.344;
    private const double FarthestKm = 1000;

    // −ln 0.02 and −ln 0.05 (AMS Glossary, meteorological range; CIE, meteorological optical range).
    private const double ToMeteorologicalRange = 3.912 / 2.996;

    private const string Right = "a number of kilometres such as 80 or 40 km, or a group such as 9999, 4000, CAVOK, 10SM, 1 1/2SM or P6SM";

    /// <summary>The distance at which 2 % of contrast is left.</summary>
    public Length MeteorologicalRange => IsAirfields ? Range * ToMeteorologicalRange : Range;

    /// <param name="text">A group of a METAR or TAF, or a number of kilometres.</param>
    /// <exception cref="BadInputException">Neither.</exception>
    public static ReportedVisibility Read(string text, string field)
    {
        ArgumentNullException.ThrowIfNull(text);
        var group = text.Trim().ToUpperInvariant();
        if (group == "CAVOK") return new(Length.FromKilometres(10), VisibilityBound.AtLeast, IsAirfields: true);
        if (Metres().Match(group) is { Success: true } metres) return OfMetres(Number(metres, "metres"));
        if (StatuteMiles().Match(group) is { Success: true } miles && Miles(miles) is { } count) return OfMiles(count, miles.Groups["bound"].Value);
        if (Kilometres().Match(group) is { Success: true } plain && Number(plain, "km") is > 0 and <= FarthestKm and var km)
            return new(Length.FromKilometres(km), VisibilityBound.Measured, IsAirfields: false);
        throw new BadInputException(field, $"Must be {Right}; got '{Shortened.To80(text)}'.");
    }

    /// <summary>What was reported and how it is taken.</summary>
    public string Sentence => Bound switch
    {
        VisibilityBound.AtLeast => $"The report says {Range.Kilometres:0.#} km or more: a lower limit, from which no visibility can be worked out.",
        VisibilityBound.LessThan => $"The report says less than {Range.Kilometres:0.##} km: {MeteorologicalRange.Kilometres:0.##} km is an upper limit of the meteorological range.",
        _ => IsAirfields
            ? $"The report says {Range.Kilometres:0.##} km, at which 5 % of contrast is left; the meteorological range, 2 %, is {MeteorologicalRange.Kilometres:0.##} km."
            : $"The visibility is given as {Range.Kilometres:0.##} km.",
    };

    private static ReportedVisibility OfMetres(double metres) => metres switch
    {
        // 9999 stands for 10 km or more, 0000 for less than 50 m (ICAO Annex 3).
        9999 => new(Length.FromKilometres(10), VisibilityBound.AtLeast, IsAirfields: true),
        0 => new(Length.FromMetres(50), VisibilityBound.LessThan, IsAirfields: true),
        _ => new(Length.FromMetres(metres), VisibilityBound.Measured, IsAirfields: true),
    };

    private static ReportedVisibility OfMiles(double miles, string bound) => new(
        Length.FromMetres(miles * MetresPerStatuteMile),
        bound switch
        {
            "P" => VisibilityBound.AtLeast,
            "M" => VisibilityBound.LessThan,
            // Automatic stations report no more than ten miles.
            _ => miles == 10 ? VisibilityBound.AtLeast : VisibilityBound.Measured,
        },
        IsAirfields: true);

    private static double? Miles(Match miles)
    {
        var whole = miles.Groups["whole"].Success ? Number(miles, "whole") : 0;
        if (!miles.Groups["over"].Success) return whole > 0 ? whole : null;
        return Number(miles, "under") > 0 && Number(miles, "over") > 0 ? whole + (Number(miles, "over") / Number(miles, "under")) : null;
    }

    private static double Number(Match match, string group) => double.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture);

    [GeneratedRegex("^(?<metres>[0-9]{4})(NDV|N|NE|E|SE|S|SW|W|NW)?$")]
    private static partial Regex Metres();

    [GeneratedRegex("^(?<bound>[PM])?((?<whole>[0-9]{1,2})|(?<whole>[0-9]{1,2}) (?<over>[0-9]{1,2})/(?<under>[0-9]{1,2})|(?<over>[0-9]{1,2})/(?<under>[0-9]{1,2}))SM$")]
    private static partial Regex StatuteMiles();

    [GeneratedRegex("^(?<km>[0-9]{1,3}(\\.[0-9]{1,3})?)( ?KM)?$")]
    private static partial Regex Kilometres();
}
