using System.IO.Compression;
using System.Text.RegularExpressions;
using Glowcast.Engine.Measures;
using Microsoft.Data.Sqlite;

namespace Glowcast.Server.Store;

/// <summary>All that a data folder keeps, as one zip file and back.</summary>
public static partial class Backup
{
    private const string GridFolder = DataFolder.GridsName + "/";

    /// <summary>Writes a backup, also while a service uses the folder.</summary>
    /// <param name="file">A new file.</param>
    /// <returns>How many grids it holds.</returns>
    /// <exception cref="BadInputException">The folder holds no data, or the file is there already or cannot be written.</exception>
    public static int Write(string folder, string file)
    {
        var database = Path.Combine(folder, DataFolder.DatabaseName);
        if (!File.Exists(database)) throw new BadInputException("data", $"Holds no {DataFolder.DatabaseName}; name the data folder of a service.");
        var copy = Path.Combine(Path.GetTempPath(), $"glowcast-backup-{Guid.NewGuid():N}.db");
        try
        {
            CopyDatabase(database, copy);
            using var stream = new FileStream(file, FileMode.CreateNew, FileAccess.Write);
            var grids = WriteZip(stream, copy, Path.Combine(folder, DataFolder.GridsName));
            stream.Flush(flushToDisk: true);
            return grids;
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
        {
            throw new BadInputException("backup", $"Cannot be written: {FileRefusal.Because(refused)}; name another file.");
        }
        finally
        {
            File.Delete(copy);
        }
    }

    /// <summary>Fills a new data folder from a backup.</summary>
    /// <param name="folder">Empty, or not there yet.</param>
    /// <returns>How many grids it holds.</returns>
    /// <exception cref="BadInputException">The folder is not empty, or the file is no backup that is whole.</exception>
    public static int Restore(string file, string folder)
    {
        if (Directory.Exists(folder) && Directory.EnumerateFileSystemEntries(folder).Any())
            throw new BadInputException("data", "Is not empty; a backup is restored into a new folder.");
        try
        {
            using var archive = Opened(file);
            using var data = DataFolder.OpenWith(folder, database => Unpack(archive, DataFolder.DatabaseName, database));
            return RestoreGrids(archive, data);
        }
        catch (InvalidDataException broken)
        {
            throw new BadInputException("backup", $"Is no backup of a service, or not a whole one; give a file that data backup wrote. {broken.Message}");
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

    private static void CopyDatabase(string database, string copy)
    {
        using var source = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = database, Mode = SqliteOpenMode.ReadWrite, Pooling = false }.ToString());
        using var target = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = copy, Pooling = false }.ToString());
        source.Open();
        target.Open();
        source.BackupDatabase(target);
        // Answers can be worked out again; a grid deleted between the two steps is not there to be copied.
        target.Execute("DELETE FROM cached");
        target.Execute("VACUUM");
    }

    private static int WriteZip(Stream stream, string copy, string gridFolder)
    {
        using var archive = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true);
        var grids = 0;
        using (var database = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = copy, Pooling = false }.ToString()))
        {
            database.Open();
            foreach (var id in database.Query("SELECT id FROM grid", row => row.GetString(0)))
            {
                var path = Path.Combine(gridFolder, id);
                if (!File.Exists(path))
                {
                    database.Execute("DELETE FROM grid WHERE id = $id", ("$id", id));
                    continue;
                }
                archive.CreateEntryFromFile(path, GridFolder + id, CompressionLevel.Fastest);
                grids++;
            }
        }
        archive.CreateEntryFromFile(copy, DataFolder.DatabaseName, CompressionLevel.Fastest);
        return grids;
    }

    private static int RestoreGrids(ZipArchive archive, DataFolder data)
    {
        var grids = data.Database.Read(connection => connection.Query("SELECT id, file_name FROM grid", row => (Id: row.GetString(0), Name: row.GetString(1))));
        foreach (var (id, name) in grids)
        {
            // Names come from the database, and only addresses become files: no entry is ever followed to where it points.
            if (!Address().IsMatch(id)) throw new InvalidDataException($"'{id}' is no address of a grid.");
            var path = Path.Combine(data.Grids, id);
            Unpack(archive, GridFolder + id, path);
            if (GridAddress.Of(name, path) != id) throw new InvalidDataException($"Grid {id} is not what it was when it was kept.");
        }
        OnDisk.FlushNames(data.Grids);
        return grids.Count;
    }

    private static void Unpack(ZipArchive archive, string entry, string path)
    {
        var packed = archive.GetEntry(entry) ?? throw new InvalidDataException($"It has no {entry}.");
        try
        {
            using var source = packed.Open();
            using var target = new FileStream(path, FileMode.CreateNew, FileAccess.Write);
            source.CopyTo(target);
            target.Flush(flushToDisk: true);
        }
        catch (InvalidDataException)
        {
            throw new InvalidDataException($"Its {entry} is damaged.");
        }
    }

    [GeneratedRegex("^[0-9a-f]{32}$", RegexOptions.CultureInvariant)]
    private static partial Regex Address();
}
