using Glowcast.Engine.Measures;

namespace Glowcast.Cli.Takes;

/// <summary>Looks, before any work is done, whether a take can be handed over where the user says.</summary>
internal static class OutputPlace
{
    /// <param name="originals">The folder of the take; what is written stays out of it.</param>
    /// <param name="target">Named by the user.</param>
    /// <param name="isFolder">A folder is to stand there, else a file.</param>
    /// <param name="field">Where the user named it.</param>
    public static void Check(string? originals, string target, bool isFolder, string field, Faults faults)
    {
        if (target.Length == 0) faults.Add(field, $"Is empty; name a {(isFolder ? "folder" : "file")}.");
        else if (isFolder && File.Exists(target)) faults.Add(field, $"Is a file; name a folder, which is made where it is missing. Got {target}.");
        else if (!isFolder && Directory.Exists(target)) faults.Add(field, $"Is a folder; name a file in it. Got {target}.");
        else if (FileAbove(target) is { } file) faults.Add(field, $"Cannot lie in {file}, which is a file and no folder; got {target}.");
        else if (originals is not null && IsWithin(originals, target)) faults.Add(field, $"Must lie outside the folder of the take, which is only read; got {target}.");
    }

    private static string? FileAbove(string target)
    {
        for (var above = Path.GetDirectoryName(Path.GetFullPath(target)); above is not null; above = Path.GetDirectoryName(above))
            if (File.Exists(above)) return above;
        return null;
    }

    private static bool IsWithin(string folder, string target)
    {
        var relative = Path.GetRelativePath(Resolved(folder), Resolved(target));
        return relative != ".." && !relative.StartsWith($"..{Path.DirectorySeparatorChar}", StringComparison.Ordinal) && !Path.IsPathRooted(relative);
    }

    // Where it really lies: every link on the way followed, as far as there is anything yet.
    private static string Resolved(string path)
    {
        var full = Path.GetFullPath(path);
        if (Path.GetDirectoryName(full) is not { } above) return full;
        var here = Path.Combine(Resolved(above), Path.GetFileName(full));
        try
        {
            FileSystemInfo entry = Directory.Exists(here) ? new DirectoryInfo(here) : new FileInfo(here);
            return entry.ResolveLinkTarget(returnFinalTarget: true) is { } target ? Resolved(target.FullName) : here;
        }
        catch (Exception unreadable) when (unreadable is IOException or UnauthorizedAccessException)
        {
            // A link that leads nowhere, or round in a circle: writing there will be refused.
            return here;
        }
    }
}
