using System.Globalization;
using System.Text.RegularExpressions;

namespace Glowcast.Server.Store;

/// <summary>The file that says that a folder is a data folder, and whose. It is written once, into a folder that was empty or held a database of
/// this service; without it nothing in a folder is ever deleted.</summary>
/// <param name="Id">32 hexadecimal digits; files that are still arriving carry it in their names.</param>
/// <param name="IsPassing">The folder was made for one run of a service that was given none.</param>
internal sealed partial record DataMarker(string Id, bool IsPassing)
{
    public const string FileName = "glowcast-folder";

    private const int MostBytes = 4096;
    private const string Passing = "passing";
    private const string Kept = "kept";

    public static DataMarker New(bool isPassing) => new(Guid.NewGuid().ToString("N"), isPassing);

    /// <summary>Null where there is none that can be trusted: a link or a folder of that name is none.</summary>
    public static DataMarker? Read(string folder)
    {
        var file = new FileInfo(Path.Combine(folder, FileName));
        if (!OwnFiles.HasContent(file.FullName) || file.Length > MostBytes) return null;
        return Form().Match(File.ReadAllText(file.FullName)) is { Success: true } match ? new DataMarker(match.Groups[1].Value, match.Groups[2].Value == Passing) : null;
    }

    /// <exception cref="IOException">There is something of that name already, or the disk refuses.</exception>
    public void Write(string folder)
    {
        using (var file = OwnFiles.Create(Path.Combine(folder, FileName)))
        {
            file.Write(System.Text.Encoding.UTF8.GetBytes(Text));
            file.Flush(flushToDisk: true);
        }
        OnDisk.FlushNames(folder);
    }

    private string Text => string.Create(
        CultureInfo.InvariantCulture,
        $"Glowcast data folder 1\nid {Id}\n{(IsPassing ? Passing : Kept)}\n\nGlowcast keeps its data in this folder. Leave this file as it is, and keep files of your own elsewhere.\n");

    [GeneratedRegex(@"\AGlowcast data folder 1\nid ([0-9a-f]{32})\n(passing|kept)\n", RegexOptions.CultureInvariant)]
    private static partial Regex Form();
}
