namespace Glowcast.Engine.Weather;

/// <summary>What a level of a TEMP message is.</summary>
internal enum TempLevelKind
{
    Surface,
    Mandatory,
    SignificantTemperature,
    SignificantWind,
}

/// <summary>One level of a TEMP message.</summary>
/// <param name="Part">A to D.</param>
internal readonly record struct TempLevel(char Part, TempLevelKind Kind, SoundingLevel Level);

/// <summary>A WMO FM 35 TEMP message, decoded level by level.</summary>
/// <param name="WindInKnots">As its day group says; its levels are in knots in any case.</param>
/// <param name="HighestWindLevel">The figure for the highest mandatory level with a wind: hundreds of hPa; '/' for none.</param>
/// <param name="PassedOver">What was not understood, in sentences.</param>
internal sealed record TempReport(
    string Station, DayAndHour Time, bool WindInKnots, char HighestWindLevel, IReadOnlyList<TempLevel> Levels, IReadOnlyList<string> PassedOver);
