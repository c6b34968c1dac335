using Glowcast.Engine.Weather;

namespace Glowcast.Server.Answers;

/// <summary>How often a lookout stood above a deck, by month and hour, in the archive of a station.</summary>
/// <param name="TopM">Height of the lookout above the sea.</param>
public sealed record StationAnswer(string Station, double? LatitudeDeg, double? LongitudeDeg, double TopM, int FromYear, int ToYear, IReadOnlyList<StationMonthAnswer> Months)
{
    public static StationAnswer Of(StationClimate climate)
    {
        ArgumentNullException.ThrowIfNull(climate);
        return new StationAnswer(
            climate.Station, climate.Place?.LatitudeDeg, climate.Place?.LongitudeDeg, climate.Top.Metres, climate.FirstYear, climate.LastYear,
            [.. climate.Months.Select(month => StationMonthAnswer.Of(month, climate.Place?.LongitudeDeg))]);
    }
}

/// <summary>One month at one hour.</summary>
/// <param name="Hour">UTC.</param>
/// <param name="SolarHour">Local mean solar time; null where the station's place is not known.</param>
/// <param name="Soundings">All flights.</param>
/// <param name="Usable">Those that could be judged: the share is of these.</param>
/// <param name="Below">Those with a deck below the height.</param>
/// <param name="Share">0 to 1; null without any.</param>
/// <param name="Low">Of the interval of 95 % (Wilson).</param>
/// <param name="Enough">At least 50 flights: fewer do not make a share worth naming.</param>
public sealed record StationMonthAnswer(int Month, int Hour, double? SolarHour, int Soundings, int Usable, int Below, double? Share, double Low, double High, bool Enough)
{
    public static StationMonthAnswer Of(DeckShare month, double? longitudeDeg)
    {
        ArgumentNullException.ThrowIfNull(month);
        var interval = month.Interval;
        return new StationMonthAnswer(
            month.Month, month.Hour, longitudeDeg is { } east ? (month.Hour + (east / 15) + 24) % 24 : null, month.Soundings, month.Usable, month.Below,
            month.Usable > 0 ? interval.Share : null, interval.Low, interval.High, month.IsEnough);
    }
}
