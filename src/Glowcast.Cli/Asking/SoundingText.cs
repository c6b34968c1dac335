using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;

namespace Glowcast.Cli.Asking;

/// <summary>Reads soundings from files.</summary>
internal static class SoundingText
{
    /// <exception cref="BadInputException">It cannot be opened, or is no sounding.</exception>
    public static Profile Read(string path, string field)
    {
        var faults = new Faults();
        var name = $"{field} {path}";
        using var file = InputFile.Open(path, name, "a sounding", faults);
        faults.ThrowIfAny();
        using var reader = new StreamReader(file!);
        var text = new char[SoundingFile.MostCharacters + 1];
        var length = reader.ReadBlock(text);
        return Profile.Read(new string(text, 0, length), name);
    }
}
