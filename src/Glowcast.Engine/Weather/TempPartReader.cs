using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>Reads the levels of one part of a TEMP message, group by group, as far as they can be understood.</summary>
/// <param name="passedOver">Takes what was not understood.</param>
internal sealed class TempPartReader(TempPart part, TempHead head, List<string> passedOver)
{
    private const string SurfaceMark = "99";
    private const string WindsMark = "21212";

    private static readonly string[] Sections = [WindsMark, "31313", "41414", "51515", "61616"];

    // Past the head.
    private int next = 2;

    /// <summary>Part A: the surface, then one group of height, one of temperatures and one of wind for each mandatory level.</summary>
    public List<TempLevel> Mandatory()
    {
        var levels = new List<TempLevel>();
        if (Peek().StartsWith(SurfaceMark, StringComparison.Ordinal))
        {
            var pressure = TempGroups.PressureHPa(Take()[2..]);
            Add(levels, TempLevelKind.Surface, pressure, null, hasWind: head.HighestWindLevel != '/');
        }
        var lastHPa = int.MaxValue;
        while (Peek() is { Length: 5 } group && TempGroups.MandatoryHPa(group[..2]) is { } pressureHPa && pressureHPa < lastHPa)
        {
            lastHPa = pressureHPa;
            Add(levels, TempLevelKind.Mandatory, pressureHPa, TempGroups.HeightM(pressureHPa, Take()[2..]), HasWind(pressureHPa));
        }
        // Tropopause (88), greatest wind (77, 66), shear (4) and the later sections are no levels of the profile.
        if (Peek() is { Length: > 0 } rest && rest[0] is not ('8' or '7' or '6' or '4') && !Sections.Contains(rest)) PassOver(rest);
        return levels;
    }

    /// <summary>Part B: pressures with temperatures, then, after 21212, pressures with winds.</summary>
    public List<TempLevel> Significant()
    {
        var levels = new List<TempLevel>();
        foreach (var (pressureHPa, group) in Pairs())
        {
            if (TempGroups.Temperatures(group) is { } read) levels.Add(LevelOf(TempLevelKind.SignificantTemperature, pressureHPa, null, read, default));
            else PassOver(group);
        }
        if (Peek() != WindsMark) return levels;
        Take();
        foreach (var (pressureHPa, group) in Pairs())
        {
            if (TempGroups.Wind(group) is { } read) levels.Add(LevelOf(TempLevelKind.SignificantWind, pressureHPa, null, default, read));
            else PassOver(group);
        }
        return levels;
    }

    /// <summary>Pressure groups, numbered 00, 11, 22 … 99, 11 …, each with the group that belongs to it.</summary>
    private IEnumerable<(double PressureHPa, string Group)> Pairs()
    {
        while (Peek() is { Length: 5 } number && !Sections.Contains(number) && number[0] == number[1] && char.IsAsciiDigit(number[0]))
        {
            var (pressureHPa, group) = (TempGroups.PressureHPa(Take()[2..]), Take());
            if (pressureHPa is { } known) yield return (known, group);
        }
        if (Peek() is { Length: > 0 } rest && !Sections.Contains(rest)) PassOver(rest);
    }

    private void Add(List<TempLevel> levels, TempLevelKind kind, double? pressureHPa, double? heightM, bool hasWind)
    {
        var (first, second) = (Take(), hasWind ? Take() : "/////");
        var (temperatures, wind) = (TempGroups.Temperatures(first), TempGroups.Wind(second));
        if (temperatures is null) PassOver(first);
        if (wind is null) PassOver(second);
        if (pressureHPa is { } known) levels.Add(LevelOf(kind, known, heightM, temperatures ?? default, wind ?? default));
    }

    private TempLevel LevelOf(
        TempLevelKind kind, double pressureHPa, double? heightM, (double? TemperatureC, double? DewPointC) read, (double? FromDeg, double? Speed) wind) => new(
            part.Letter, kind, new SoundingLevel(
                pressureHPa, heightM, read.TemperatureC, read.DewPointC, wind.FromDeg, head.WindInKnots ? wind.Speed : wind.Speed * Units.KnotsPerMetreASecond));

    /// <summary>Table 1734: the figure names the highest mandatory level with a wind, in hundreds of hPa rounded down.</summary>
    private bool HasWind(int pressureHPa) => head.HighestWindLevel switch
    {
        '/' => false,
        '0' => pressureHPa >= 1000,
        var figure => pressureHPa >= 100 * (figure - '0'),
    };

    private string Peek() => next < part.Groups.Length ? part.Groups[next] : "";

    private string Take() => next < part.Groups.Length ? part.Groups[next++] : "";

    private void PassOver(string group) =>
        passedOver.Add(group.Length == 0 ? $"Part {part.Letter} ends within a level: it is cut off." : $"Part {part.Letter}: the group '{Shortened.To80(group)}' was not understood and passed over.");
}
