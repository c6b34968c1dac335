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

    // Pictures too, but none that can be read here.
    private static readonly string[] Unread =
        [".heic", ".heif", ".hif", ".avif", ".jxl", ".webp", ".png", ".x3f", ".3fr", ".fff", ".iiq", ".crw", ".mrw", ".gpr", ".kdc", ".dcr"];

    private static readonly EnumerationOptions OneLevel = new() { AttributesToSkip = FileAttributes.ReparsePoint | FileAttributes.System, IgnoreInaccessible = false };

    /// <param name="field">Where the user named the folder.</param>
    /// <exception cref="BadInputException">There is no such folder, or no picture in it, or far too many.</exception>
    public static (IReadOnlyList<TakeFile> Files, IReadOnlyList<Fault> PassedOver) Read(string folder, string field)
    {
        if (!Directory.Exists(folder))
            throw new BadInputException(field, $"Is no folder; name the one that holds the take. Looked for {Path.GetFullPath(folder)}.");
        var passedOver = new List<Fault>();
        var all = FilesIn(folder, folder, passedOver).ToList();
        var files = all.Where(path => EndingOf(path) >= 0).Take(MostFiles + 1).ToList();
        if (files.Count == 0)
            throw new BadInputException(field, $"Holds no pictures{(passedOver.Count > 0 ? $" that can be read ({passedOver[0].Field}: {passedOver[0].Message})" : "")}; they end in {string.Join(", ", Endings)}.");
        if (files.Count > MostFiles)
            throw new BadInputException(field, $"Holds more than {MostFiles} pictures; name the folder of one take.");
        var stems = files.Select(Stem).ToHashSet(StringComparer.Ordinal);
        passedOver.AddRange(all.Where(path => IsUnread(path) && !stems.Contains(Stem(path))).Select(path => new Fault(NameOf(folder, path), $"Is a {Path.GetExtension(path)[1..].ToUpperInvariant()} file, which is not read here: {Known}.")));
        return ([.. files.GroupBy(Stem, StringComparer.Ordinal)
            .Select(FilesOf)
            .Select(same => new TakeFile(NameOf(folder, same[0]), same))
            .OrderBy(file => file.Name, StringComparer.Ordinal)], passedOver);
    }

    private const string Known = "JPEG, TIFF, DNG and the raw files of most cameras are";

    private static IEnumerable<string> FilesIn(string root, string folder, List<Fault> passedOver)
    {
        string[] files, folders;
        try
        {
            (files, folders) = (Directory.GetFiles(folder, "*", OneLevel), Directory.GetDirectories(folder, "*", OneLevel));
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
        {
            passedOver.Add(new Fault(NameOf(root, folder), $"Is a folder that cannot be read: {FileRefusal.Because(refused)}."));
            return [];
        }
        return files.Concat(folders.SelectMany(below => FilesIn(root, below, passedOver)));
    }

    private static string NameOf(string root, string path) => Path.GetRelativePath(root, path).Replace('\\', '/');

    private static string Stem(string path) => Path.ChangeExtension(path, null);

    private static bool IsUnread(string path) => Unread.Contains(Path.GetExtension(path).ToLowerInvariant());

    // Of a frame: those with anything in them; one without stands alone, to be named.
    private static List<string> FilesOf(IEnumerable<string> same)
    {
        var all = same.OrderBy(EndingOf).ToList();
        var filled = all.FindAll(path => new FileInfo(path) is { Exists: true, Length: > 0 });
        return filled.Count > 0 ? filled : all[..1];
    }

    private static int EndingOf(string path) => Array.IndexOf(Endings, Path.GetExtension(path).ToLowerInvariant());
}
