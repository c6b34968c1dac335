using System.Globalization;

namespace Glowcast.Server.Notes;

/// <summary>What was seen in the field on a day, beside what had been forecast for it.</summary>
/// <param name="Date">Local.</param>
/// <param name="Forecast">The address of the forecast; it may be forgotten by now.</param>
public sealed record FieldNote(
    string Id, string Written, string Date, double LatitudeDeg, double LongitudeDeg, string Forecast, SeenInField Seen, ForecastOfNote Expected, string Text)
{
    /// <summary>Tells one lookout from another: its place to 0.00001°, about a metre.</summary>
    public static string PlaceOf(double latitudeDeg, double longitudeDeg) =>
        string.Create(CultureInfo.InvariantCulture, $"{latitudeDeg:0.00000} {longitudeDeg:0.00000}");
}

/// <param name="FirstLight">UTC, when enough of the ridge was lit; null where nobody looked.</param>
/// <param name="LastLight">UTC, when it no longer was.</param>
/// <param name="DeckTopM">Top of the sea of cloud.</param>
/// <param name="Set">How the set went; null where none is told of.</param>
public sealed record SeenInField(string? FirstLight, string? LastLight, double? DeckTopM, SetOutcome? Set);

/// <summary>How a set went.</summary>
public enum SetOutcome
{
    /// <summary>All of it in the light.</summary>
    Whole,

    /// <summary>Some of it only.</summary>
    Broken,

    NotShot,
}

/// <summary>The same things as they had been forecast; null where the forecast had none.</summary>
/// <param name="FirstLight">Start of the window.</param>
/// <param name="LastLight">Its end.</param>
/// <param name="Verdict">Whether the set was to fit.</param>
public sealed record ForecastOfNote(string? FirstLight, string? LastLight, double? DeckTopM, string? Verdict);
