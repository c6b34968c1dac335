using Glowcast.Engine.Measures;

namespace Glowcast.Server.Store;

/// <summary>The folder of a service that was given none: it lies with the temporary files and goes with the service, or, where that was killed,
/// when the next one starts.</summary>
internal static class PassingFolder
{
    private const string Prefix = "glowcast-passing-";

    private static readonly string[] Files =
        [DataFolder.DatabaseName, DataFolder.DatabaseName + "-wal", DataFolder.DatabaseName + "-shm", DataFolder.DatabaseName + "-journal", GridLedger.FileName, RoomToDelete.FileName];

    public static string Make() => Directory.CreateTempSubdirectory(Prefix).FullName;

    /// <summary>Deletes what a service has written into its passing folder; what anybody else has put there stays.</summary>
    public static void Remove(DataFolder folder)
    {
        var marker = DataMarker.Read(folder.Path);
        if (marker is { IsPassing: true }) RemoveFiles(folder.Path, marker);
    }

    /// <summary>After its lock was given back.</summary>
    public static void RemoveEmptied(string folder)
    {
        try
        {
            OwnFiles.Delete(Path.Combine(folder, DataFolder.LockName));
            Directory.Delete(folder);
        }
        catch (Exception kept) when (kept is IOException or UnauthorizedAccessException)
        {
            // Somebody else has put something there: it stays.
        }
    }

    /// <summary>Those that killed services have left.</summary>
    public static void RemoveForgotten()
    {
        foreach (var folder in Directory.EnumerateDirectories(Path.GetTempPath(), Prefix + "*").Where(folder => !OwnFiles.IsLink(folder)))
        {
            try
            {
                if (DataMarker.Read(folder) is not { IsPassing: true } marker) continue;
                using (DataFolder.Take(folder)) RemoveFiles(folder, marker);
                RemoveEmptied(folder);
            }
            catch (Exception other) when (other is IOException or UnauthorizedAccessException or BadInputException)
            {
                // It is in use, or another user's.
            }
        }
    }

    private static void RemoveFiles(string folder, DataMarker marker)
    {
        var ledger = new GridLedger(folder);
        RemoveFrom(Path.Combine(folder, DataFolder.GridsName), name => ledger.Of(name) is not null);
        RemoveFrom(Path.Combine(folder, DataFolder.IncomingName), name => name.StartsWith(marker.Id + "-", StringComparison.Ordinal) && name.EndsWith(".part", StringComparison.Ordinal));
        foreach (var name in Files) OwnFiles.Delete(Path.Combine(folder, name));
        // The last: until then the folder can be told to be ours.
        OwnFiles.Delete(Path.Combine(folder, DataMarker.FileName));
    }

    private static void RemoveFrom(string folder, Func<string, bool> isOurs)
    {
        if (!Directory.Exists(folder) || OwnFiles.IsLink(folder)) return;
        foreach (var path in Directory.EnumerateFiles(folder).Where(path => isOurs(Path.GetFileName(path)))) OwnFiles.Delete(path);
        if (!Directory.EnumerateFileSystemEntries(folder).Any()) Directory.Delete(folder);
    }
}
