using Glowcast.Engine.Measures;

namespace Glowcast.Cli.Takes;

/// <summary>A picture of a folder: the file that is read for it, and others of the same name such as the JPEG beside a raw file.</summary>
/// <param name="Name">Of the file that is read, from the folder on, with slashes.</param>
/// <param name="Files">Full paths, the one that is read first.</param>
internal sealed record TakeFile(string Name, IReadOnlyList<string> Files);

/// <summary>Finds the pictures in a folder and those below it. Links are not followed, so there are no loops.</summary>
internal static class TakeFolder
{
    private const int MostFiles = 200_000;

    // Raw files first: where a JPEG lies beside one, the raw file is the frame.
    private static readonly string[] Endings =
        [".dng", ".cr3", ".cr2", ".nef", ".nrw", ".arw", ".raf", ".orf", ".rw2", ".pef", ".srw", ".tif", ".tiff", ".jpg", ".jpeg"];

    private static readonly EnumerationOptions OnlyFiles = new()
    {
        RecurseSubdirectories = true,
        AttributesToSkip = FileAttributes.ReparsePoint | FileAttributes.System,
        IgnoreInaccessible = true,
    };

    /// <param name="field">Where the user named the folder.</param>
    /// <exception cref="BadInputException">There is no such folder, or no picture in it, or far too many.</exception>
    public static IReadOnlyList<TakeFile> Read(string folder, string field)
    {
        if (!Directory.Exists(folder))
            throw new BadInputException(field, $"Is no folder; name the one that holds the take. Looked for {Path.GetFullPath(folder)}.");
        var files = Directory.EnumerateFiles(folder, "*", OnlyFiles).Where(path => EndingOf(path) >= 0).Take(MostFiles + 1).ToList();
        if (files.Count == 0)
            throw new BadInputException(field, $"Holds no pictures; they end in {string.Join(", ", Endings)}.");
        if (files.Count > MostFiles)
            throw new BadInputException(field, $"Holds more than {MostFiles} pictures; name the folder of one take.");
        return [.. files.GroupBy(path => Path.ChangeExtension(path, null), StringComparer.Ordinal)
            .Select(FilesOf)
            .Select(same => new TakeFile(Path.GetRelativePath(folder, same[0]).Replace('\\', '/'), same))
            .OrderBy(file => file.Name, StringComparer.Ordinal)];
    }

    // Of a frame: those with anything in them; one without stands alone, to be named.
    private static List<string> FilesOf(IEnumerable<string> same)
    {
        var all = same.OrderBy(EndingOf).ToList();
        var filled = all.FindAll(path => new FileInfo(path) is { Exists: true, Length: > 0 });
        return filled.Count > 0 ? filled : all[..1];
    }

    private static int EndingOf(string path) => Array.IndexOf(Endings, Path.GetExtension(path).ToLowerInvariant());
}
