using System.Runtime.InteropServices;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Take;

namespace Glowcast.Cli.Takes;

/// <summary>Puts the files of each set into a folder of its own, as copies or as hard links. Nothing is moved, and no file that
/// is there is written over.</summary>
internal static partial class SetFolders
{
    /// <param name="field">Where the user named the folder.</param>
    /// <exception cref="BadInputException">A file is in the way, or the disk refuses.</exception>
    public static void Write(string folder, SortedTake take, IReadOnlyDictionary<string, TakeFile> files, bool asLinks, string field, IProgress<double> progress, CancellationToken cancel)
    {
        List<(string From, string To)> work =
            [.. from set in take.Sets.Index()
                from frame in set.Item.Frames
                from path in files[frame.Frame.Name].Files
                select (path, Path.Combine(folder, TakeLists.SetName(set.Index), Path.GetFileName(path)))];
        if (work.Find(pair => File.Exists(pair.To)) is { To: { } inTheWay }) throw new BadInputException(field, $"Holds {inTheWay} already; name an empty folder.");
        if (work.GroupBy(pair => pair.To).FirstOrDefault(same => same.Count() > 1) is { } twice)
            throw new BadInputException(field, $"Cannot hold two files of one name in one set: {string.Join(", ", twice.Select(pair => pair.From))}.");
        var hasFolder = Directory.Exists(folder);
        var made = new List<string>();
        try
        {
            foreach (var (from, to) in work)
            {
                cancel.ThrowIfCancellationRequested();
                Put(from, to, asLinks, field);
                made.Add(to);
                progress.Report((double)made.Count / work.Count);
            }
        }
        catch
        {
            TakeBack(folder, hasFolder, made);
            throw;
        }
    }

    // Half of a take in its folders would pass for all of it.
    private static void TakeBack(string folder, bool hadFolder, List<string> made)
    {
        foreach (var file in made.Where(File.Exists)) File.Delete(file);
        foreach (var ofSet in made.Select(file => Path.GetDirectoryName(file)!).Distinct().Append(hadFolder ? null : folder))
            if (ofSet is not null && Directory.Exists(ofSet) && !Directory.EnumerateFileSystemEntries(ofSet).Any()) Directory.Delete(ofSet);
    }

    private static void Put(string from, string to, bool asLinks, string field)
    {
        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(to)!);
            if (!asLinks) WholeFile.Copy(from, to);
            else if (!(OperatingSystem.IsWindows() ? CreateHardLink(to, from, 0) : MakeLink(from, to) == 0))
                throw new BadInputException(field, $"Cannot hold a hard link to {from}; links need the same disk, and one that knows them. Take copies instead.");
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
        {
            throw new BadInputException(field, $"Cannot hold {to}: {FileRefusal.Because(refused)}; name another folder, or see whether {from} can be read.");
        }
    }

    [LibraryImport("libc", EntryPoint = "link", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial int MakeLink(string from, string to);

    [LibraryImport("kernel32", EntryPoint = "CreateHardLinkW", SetLastError = true, StringMarshalling = StringMarshalling.Utf16)]
    [return: MarshalAs(UnmanagedType.Bool)]
    private static partial bool CreateHardLink(string to, string from, nint security);
}
