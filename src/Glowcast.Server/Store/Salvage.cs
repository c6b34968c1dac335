using System.Text.Json;
using Glowcast.Engine.Measures;
using Microsoft.Data.Sqlite;

namespace Glowcast.Server.Store;

/// <summary>Saves what can be read of a damaged data folder into a new one. The damaged one is not touched.</summary>
public static class Salvage
{
    private const string Salvaging = "glowcast-salvaging-";

    private static readonly (string Table, string Columns, string Key, string Json)[] Tables =
    [
        ("document", "kind, id, name, json, changed", "id", "json"),
        ("note", "id, place, json, written", "id", "json"),
        ("token", "name, hash, made", "name", ""),
    ];

    /// <param name="folder">Used by no service.</param>
    /// <param name="newFolder">Empty, or not there yet.</param>
    /// <exception cref="BadInputException">The one is no data folder or in use, or the other is not empty.</exception>
    public static SalvageOutcome Into(string folder, string newFolder)
    {
        if (!File.Exists(Path.Combine(folder, DataFolder.DatabaseName)) && DataMarker.Read(folder) is null)
            throw new BadInputException("data", $"Holds neither {DataFolder.DatabaseName} nor {DataMarker.FileName}; name the data folder of a service.");
        if (Directory.Exists(newFolder)) PassingFolder.RemoveForgotten(newFolder, Salvaging);
        if (Directory.Exists(newFolder) && Directory.EnumerateFileSystemEntries(newFolder).Any()) throw new BadInputException("to", "Is not empty; name a new folder.");
        try
        {
            using var inUse = DataFolder.TakeToRead(folder);
            return NewFolder.Fill(newFolder, Salvaging, staging => Fill(folder, staging));
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
        {
            throw new BadInputException("to", $"Cannot be written: {FileRefusal.Because(refused)}; name another folder.");
        }
    }

    private static SalvageOutcome Fill(string folder, string staging)
    {
        using var target = Database.Open(Path.Combine(staging, DataFolder.DatabaseName));
        var rows = new Dictionary<string, int>();
        var named = new Dictionary<string, (string Name, long Bytes)>();
        using (var copy = new SalvageCopy(Path.Combine(folder, DataFolder.DatabaseName)))
        {
            foreach (var (table, columns, key, json) in Tables) rows[table] = CopyRows(copy.Rows(table, columns, key), target, table, columns, json);
            foreach (var row in copy.Rows("grid", "id, file_name, bytes", "id"))
                if (row is [string id, string name, long bytes]) named[id] = (name, bytes);
        }
        var (grids, damaged) = CopyGrids(folder, staging, named);
        return new SalvageOutcome(rows["document"], rows["note"], grids, damaged);
    }

    private static int CopyRows(IEnumerable<object[]> rows, Database target, string table, string columns, string json)
    {
        var names = columns.Split(", ");
        var sql = $"INSERT OR IGNORE INTO {table} ({columns}) VALUES ({string.Join(", ", names.Select(name => "$" + name))})";
        return target.WriteAsync(connection => rows.Where(row => json.Length == 0 || IsJson(row[Array.IndexOf(names, json)])).Sum(row => TryInsert(connection, sql, [.. names.Select((name, i) => ("$" + name, (object?)row[i]))])), CancellationToken.None).GetAwaiter().GetResult();
    }

    // A table is strict about the types of its columns, so a row that no longer fits is none of ours.
    private static int TryInsert(SqliteConnection connection, string sql, (string Name, object? Value)[] values)
    {
        try
        {
            return connection.Execute(sql, values);
        }
        catch (SqliteException)
        {
            return 0;
        }
    }

    private static bool IsJson(object value)
    {
        try
        {
            JsonDocument.Parse(value as string ?? "").Dispose();
            return true;
        }
        catch (JsonException)
        {
            return false;
        }
    }

    // Whole ones only; the service reads them again when it starts, and finds out anew what there is to say of them.
    private static (int Grids, List<string> Damaged) CopyGrids(string folder, string staging, Dictionary<string, (string Name, long Bytes)> named)
    {
        var (source, target) = (Path.Combine(folder, DataFolder.GridsName), OwnFiles.Folder(Path.Combine(staging, DataFolder.GridsName)));
        var (before, ledger, damaged) = (new GridLedger(folder), new GridLedger(staging), new List<string>());
        var kept = new List<(string, string, long)>();
        foreach (var path in Directory.Exists(source) ? Directory.EnumerateFiles(source) : [])
        {
            var id = Path.GetFileName(path);
            var name = named.TryGetValue(id, out var known) ? known.Name : before.Of(id)?.Name;
            if (name is not null && OwnFiles.HasContent(path) && GridAddress.Of(name, path) == id)
            {
                File.Copy(path, Path.Combine(target, id));
                kept.Add((id, name, new FileInfo(path).Length));
            }
            else if (name is not null) damaged.Add($"{name} ({id})");
        }
        ledger.Keep(kept);
        return (kept.Count, damaged);
    }
}

/// <param name="Documents">Lookouts, gear, plans and soundings that were saved.</param>
/// <param name="Damaged">Grids that are not what they were when they were kept, and were left behind.</param>
public sealed record SalvageOutcome(int Documents, int Notes, int Grids, IReadOnlyList<string> Damaged);
