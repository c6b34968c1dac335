using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>One part of a message: its letter and the groups after TTAA or TTBB.</summary>
internal sealed record TempPart(char Letter, string[] Groups);

/// <summary>The first two groups of a part: YYGGI and IIiii.</summary>
internal sealed record TempHead(string Station, DayAndHour Time, bool WindInKnots, char HighestWindLevel)
{
    private const int KnotsAdded = 50;

    /// <exception cref="BadInputException">They are not there, or no day and hour.</exception>
    public static TempHead Of(TempPart part, string name)
    {
        var right = $"TT{part.Letter}{part.Letter} is followed by day, hour and a figure (such as 59121), then the station's five figures";
        if (part.Groups is not [{ Length: 5 } time, { Length: 5 } station, ..] || TempGroups.Whole(time[..4]) is not { } dayAndHour || TempGroups.Whole(station) is null)
            throw new BadInputException(name, $"Its part {part.Letter} has no readable head: {right}; got '{Shortened.To80(string.Join(' ', part.Groups.Take(2)))}'.");
        var (day, hour) = (dayAndHour / 100, dayAndHour % 100);
        var inKnots = day > KnotsAdded;
        if (inKnots) day -= KnotsAdded;
        return day is >= 1 and <= 31 && hour <= 24
            ? new TempHead(station, new DayAndHour(day, hour), inKnots, time[4])
            : throw new BadInputException(name, $"Its part {part.Letter} has no possible day and hour: {right}; got '{time}'.");
    }
}
