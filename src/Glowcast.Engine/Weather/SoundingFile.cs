using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>Reads soundings, whatever they are written in.</summary>
public static class SoundingFile
{
    /// <summary>A flight at full resolution, second by second, stays below it.</summary>
    public const int MostCharacters = 4_000_000;

    private static readonly ISoundingFormat[] Formats =
        [new ProfileJsonFormat(), new TableBetweenMarksFormat(), new IgraFormat(), new TempFormat(), new TextListingFormat(), new NamedColumnsFormat()];

    /// <summary>Reads one sounding; its content tells the format.</summary>
    /// <param name="name">What the user knows it by, for faults.</param>
    /// <exception cref="BadInputException">No format that is known, or not what it looks like.</exception>
    public static Sounding Read(string text, string name)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (text.Length > MostCharacters) throw new BadInputException(name, $"Is longer than {MostCharacters} characters; a sounding has some ten thousand.");
        if (string.IsNullOrWhiteSpace(text)) throw new BadInputException(name, "Is empty; give a sounding.");
        var lines = text.ReplaceLineEndings("\n");
        var format = Array.Find(Formats, format => format.Recognises(lines))
            ?? throw new BadInputException(name, $"Is of no sounding format known here ({string.Join(", ", Formats.Select(format => format.Name))}). {NamedColumnsFormat.Hint}");
        var sounding = format.Read(lines, name);
        return sounding.Levels.Count > 0 ? sounding : throw new BadInputException(name, $"Looks like a {format.Name}, but has no level that can be read.");
    }
}
