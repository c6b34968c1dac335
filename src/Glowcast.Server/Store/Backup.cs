using System.IO.Compression;
using System.Text.RegularExpressions;
using Glowcast.Engine.Measures;
using Microsoft.Data.Sqlite;

namespace Glowcast.Server.Store;

/// <summary>All that a data folder keeps, as one zip file and back. Everything is checked on both ways; what is not as it was kept is left out and named.</summary>
public static partial class Backup
{
    private const string GridFolder = DataFolder.GridsName + "/";
    private const string Restoring = "glowcast-restoring-";

    /// <summary>Writes a backup, also while a service uses the folder. It has its name only when it is whole on the disk.</summary>
    /// <param name="file">A new file, for this user alone.</param>
    /// <exception cref="BadInputException">The folder holds no data or its database is damaged; the file is there already or cannot be written.</exception>
    public static BackupOutcome Write(string folder, string file)
    {
        var database = Path.Combine(folder, DataFolder.DatabaseName);
        if (!File.Exists(database)) throw new BadInputException("data", $"Holds no {DataFolder.DatabaseName}; name the data folder of a service.");
        try
        {
            var full = Path.GetFullPath(file);
            var half = $"{full}.{Guid.NewGuid():N}.part";
            try
            {
                using var copy = new DatabaseCopy(Path.GetFullPath(database));
                BackupOutcome outcome;
                using (var stream = OwnFiles.Create(half))
                {
                    outcome = WriteZip(stream, copy, Path.Combine(folder, DataFolder.GridsName));
                    stream.Flush(flushToDisk: true);
                }
                File.Move(half, full, overwrite: false);
                OnDisk.FlushNames(Path.GetDirectoryName(full)!);
                return outcome;
            }
            finally
            {
                File.Delete(half);
            }
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
        {
            throw new BadInputException("backup", $"Cannot be written: {FileRefusal.Because(refused)}; name another file.");
        }
    }

    /// <summary>Fills a new data folder from a backup. Where that fails the folder is as it was.</summary>
    /// <param name="folder">Empty, or not there yet.</param>
    /// <exception cref="BadInputException">The folder is not empty, or the file is no backup, or its database is damaged.</exception>
    public static BackupOutcome Restore(string file, string folder)
    {
        if (Directory.Exists(folder)) PassingFolder.RemoveForgotten(folder, Restoring);
        if (Directory.Exists(folder) && Directory.EnumerateFileSystemEntries(folder).Any())
            throw new BadInputException("data", "Is not empty; a backup is restored into a new folder.");
        try
        {
            using var archive = Opened(file);
            return NewFolder.Fill(folder, Restoring, staging => RestoreInto(archive, staging));
        }
        catch (InvalidDataException broken)
        {
            throw new BadInputException("backup", $"Is no backup of a service, or not a whole one; give a file that data backup wrote. {broken.Message}");
        }
        catch (SqliteException broken)
        {
            throw new BadInputException("backup", $"Is not whole: its {DataFolder.DatabaseName} is damaged (SQLite error {broken.SqliteErrorCode}). Give another backup.");
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
        {
            throw new BadInputException("backup", $"Cannot be restored: {(Directory.Exists(file) ? "it is a folder" : FileRefusal.Because(refused))}; name a file that data backup wrote.");
        }
    }

    private static ZipArchive Opened(string file)
    {
        try
        {
            return ZipFile.OpenRead(file);
        }
        catch (InvalidDataException)
        {
            throw new InvalidDataException("It is no zip file, or its end is missing.");
        }
    }

    private static BackupOutcome WriteZip(Stream stream, DatabaseCopy copy, string gridFolder)
    {
        using var archive = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true);
        var (grids, damaged) = (0, new List<string>());
        foreach (var (id, name) in copy.Grids())
        {
            if (TryAdd(archive, id, name, Path.Combine(gridFolder, id)) is not { } why)
            {
                grids++;
                continue;
            }
            if (copy.IsStillKept(id)) damaged.Add($"{name} ({id}): {why}");
            copy.ForgetGrid(id);
        }
        using var target = archive.CreateEntry(DataFolder.DatabaseName, CompressionLevel.Fastest).Open();
        copy.Content.Position = 0;
        copy.Content.CopyTo(target);
        return new BackupOutcome(grids, damaged);
    }

    /// <returns>Why not; null where it was added.</returns>
    private static string? TryAdd(ZipArchive archive, string id, string name, string path)
    {
        try
        {
            if (!Address().IsMatch(id) || !OwnFiles.HasContent(path)) return "its file is missing";
            if (GridAddress.Of(name, path) != id) return "it is not what it was when it was kept";
            archive.CreateEntryFromFile(path, GridFolder + id, CompressionLevel.Fastest);
            return null;
        }
        catch (FileNotFoundException)
        {
            return "its file is missing";
        }
    }

    private static BackupOutcome RestoreInto(ZipArchive archive, string staging)
    {
        var database = Path.Combine(staging, DataFolder.DatabaseName);
        var packed = archive.GetEntry(DataFolder.DatabaseName) ?? throw new InvalidDataException($"It has no {DataFolder.DatabaseName}.");
        PackedDatabase.CheckHeader(packed);
        RefuseMoreThanTheDiskHas(archive, staging);
        Unpack(packed, database);
        using (var judged = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = database, Pooling = false }.ToString()))
        {
            judged.Open();
            if (!DatabaseCheck.IsWholeAndOurs(judged)) throw new InvalidDataException($"Its {DataFolder.DatabaseName} is damaged, or no database of this program.");
        }
        using var opened = Database.Open(database);
        return RestoreGrids(archive, staging, opened);
    }

    private static BackupOutcome RestoreGrids(ZipArchive archive, string staging, Database database)
    {
        var folder = OwnFiles.Folder(Path.Combine(staging, DataFolder.GridsName));
        var (kept, damaged) = (new List<(string, string, long)>(), new List<string>());
        foreach (var grid in database.Read(connection => connection.Query("SELECT id, file_name, bytes FROM grid", row => (Id: row.GetString(0), Name: row.GetString(1), Bytes: row.GetInt64(2)))))
        {
            if (TryRestore(archive, folder, grid.Id, grid.Name, grid.Bytes) is not { } why)
            {
                kept.Add(grid);
                continue;
            }
            damaged.Add($"{grid.Name} ({Shortened.To80(grid.Id)}): {why}");
            database.WriteAsync(connection => connection.Execute("DELETE FROM grid WHERE id = $id", ("$id", grid.Id)), CancellationToken.None).GetAwaiter().GetResult();
        }
        new GridLedger(staging).Keep(kept);
        OnDisk.FlushNames(folder);
        return new BackupOutcome(kept.Count, damaged);
    }

    /// <returns>Why not; null where it was restored.</returns>
    private static string? TryRestore(ZipArchive archive, string folder, string id, string name, long bytes)
    {
        // Names come from the database, and only addresses become files: no entry is ever followed to where it points.
        if (!Address().IsMatch(id)) return "that is no address of a grid";
        if (archive.GetEntry(GridFolder + id) is not { } packed) return "it is missing";
        if (packed.Length != bytes) return $"it has {packed.Length} bytes and had {bytes}";
        var path = Path.Combine(folder, id);
        try
        {
            Unpack(packed, path);
            if (GridAddress.Of(name, path) == id) return null;
        }
        catch (InvalidDataException)
        {
            // As with a hash that is another.
        }
        File.Delete(path);
        return "it is not what it was when it was kept";
    }

    private static void RefuseMoreThanTheDiskHas(ZipArchive archive, string staging)
    {
        var wanted = archive.Entries.Where(entry => entry.FullName == DataFolder.DatabaseName || entry.FullName.StartsWith(GridFolder, StringComparison.Ordinal)).Sum(entry => (decimal)entry.Length);
        if (wanted > new DriveInfo(staging).AvailableFreeSpace) throw new InvalidDataException($"It claims to hold {wanted / (1 << 20):0} MiB, more than there is room for.");
    }

    /// <summary>Never more than the entry claims, and only what its checksum is of.</summary>
    private static void Unpack(ZipArchiveEntry packed, string path)
    {
        try
        {
            using var source = packed.Open();
            using var target = OwnFiles.Create(path);
            var (part, crc, left) = (new byte[1 << 17], new Crc32(), packed.Length);
            int read;
            while ((read = source.Read(part)) > 0)
            {
                if ((left -= read) < 0) throw new InvalidDataException();
                crc.Append(part.AsSpan(0, read));
                target.Write(part.AsSpan(0, read));
            }
            if (left != 0 || crc.Value != packed.Crc32) throw new InvalidDataException();
            target.Flush(flushToDisk: true);
        }
        catch (InvalidDataException)
        {
            throw new InvalidDataException($"Its {packed.FullName} is damaged.");
        }
    }

    [GeneratedRegex(@"\A[0-9a-f]{32}\z", RegexOptions.CultureInvariant)]
    private static partial Regex Address();
}

/// <param name="Grids">That are in it.</param>
/// <param name="Damaged">What is not, since it is not as it was kept: each a line for people.</param>
public sealed record BackupOutcome(int Grids, IReadOnlyList<string> Damaged);
