using Glowcast.Engine.Measures;

namespace Glowcast.Server.Store;

/// <summary>Fills a data folder aside and puts it in its place when it is whole: a failure leaves the folder as it was.</summary>
internal static class NewFolder
{
    // The database last: without it, and without a marker, a folder is not taken for one of ours.
    private static readonly string[] InOrder =
        [DataFolder.GridsName, GridLedger.FileName, DataFolder.DatabaseName + "-wal", DataFolder.DatabaseName];

    /// <param name="folder">Empty, or not there yet.</param>
    /// <param name="prefix">Of the name of the folder aside, which lies in it.</param>
    /// <param name="fill">Gets the path of the folder aside.</param>
    public static T Fill<T>(string folder, string prefix, Func<string, T> fill)
    {
        var isNew = !Directory.Exists(folder);
        var full = Made(folder);
        try
        {
            using var aside = PassingFolder.Make(full, prefix);
            var outcome = fill(aside.Path);
            foreach (var name in InOrder.Where(name => Path.Exists(Path.Combine(aside.Path, name)))) Directory.Move(Path.Combine(aside.Path, name), Path.Combine(full, name));
            OnDisk.FlushNames(full);
            DataMarker.New(isPassing: false).Write(full);
            return outcome;
        }
        catch
        {
            if (isNew && !Directory.EnumerateFileSystemEntries(full).Any()) Directory.Delete(full);
            throw;
        }
    }

    private static string Made(string folder)
    {
        try
        {
            return OwnFiles.Folder(Path.GetFullPath(folder));
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
        {
            throw new BadInputException("data", $"Cannot be made: {FileRefusal.Because(refused)}; name another folder.");
        }
    }
}
