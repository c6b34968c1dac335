using System.Globalization;
using System.Text.RegularExpressions;

namespace Glowcast.Engine.Take;

/// <summary>What the names of files say: the number that the camera gave, and whether a file is named as a copy.</summary>
internal static partial class FrameNames
{
    /// <summary>The last number of a name, the mark of a copy left out; 0 for none.</summary>
    public static long NumberOf(string name) => LastNumber().Match(WithoutCopyMark(name)) is { Success: true } match
        ? long.Parse(match.Groups[1].Value, CultureInfo.InvariantCulture)
        : 0;

    /// <summary>The name without folder, ending, and what file managers add to the name of a copy.</summary>
    public static string WithoutCopyMark(string name) => CopyMark().Replace(Path.GetFileNameWithoutExtension(name), "");

    /// <summary>Whether the name is that of a copy.</summary>
    public static bool IsMarkedCopy(string name) => CopyMark().IsMatch(Path.GetFileNameWithoutExtension(name));

    // The last number of the name; only its last nine digits, so that no date or checksum runs over.
    [GeneratedRegex(@"(\d{1,9})\D*$", RegexOptions.CultureInvariant)]
    private static partial Regex LastNumber();

    // "IMG_0102 (1)", "IMG_0102_2", "IMG_0102 copy 2", "IMG_0102 - Copy": after the two digits at least that a camera numbers with.
    [GeneratedRegex(@"(?<=\d\d)(\s?\(\d{1,2}\)|_\d|[\s_-]+copy(\s?\(?\d{1,2}\)?)?)$", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex CopyMark();
}
