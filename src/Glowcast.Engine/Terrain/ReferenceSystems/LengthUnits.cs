namespace Glowcast.Engine.Terrain;

/// <summary>Units of length by the numbers and names that grid files use, in metres.</summary>
internal static class LengthUnits
{
    public const int Metre = 9001;

    private const double FootM = 0.3048;

    // Mendenhall Order of 1893; kept for surveys until 2022.
    private const double SurveyFootM = 1200.0 / 3937;

    /// <summary>Null where the unit is not known here.</summary>
    public static double? OfEpsg(int code) => code switch
    {
        Metre => 1,
        9002 => FootM,
        9003 => SurveyFootM,
        _ => null,
    };

    /// <inheritdoc cref="OfEpsg"/>
    public static double? OfName(string name) => name.Trim().ToUpperInvariant() switch
    {
        "" or "M" or "METRE" or "METER" or "METRES" or "METERS" => 1,
        "FT" or "FOOT" or "FEET" or "INTERNATIONAL FOOT" => FootM,
        "US-FT" or "FTUS" or "FT_US" or "US SURVEY FOOT" or "US SURVEY FEET" or "FOOT_US" => SurveyFootM,
        _ => null,
    };
}
