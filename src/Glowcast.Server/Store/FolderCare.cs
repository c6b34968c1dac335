using System.Text.Json;
using Glowcast.Server.Answers;
using Glowcast.Server.Jobs;
using NodaTime;

namespace Glowcast.Server.Store;

/// <summary>Looks after the files of the data folder when a service starts: half files of ours go, files of ours that the database does not know are taken up
/// again, all others are left where they are and named in the log.</summary>
internal sealed partial class FolderCare(DataFolder folder, IJobs jobs, IClock clock, ILogger<FolderCare> log)
{
    private const int MostNamed = 20;

    private readonly List<string> strangers = [];

    public void Take()
    {
        if (folder.Database.IsDamaged)
        {
            Damaged(log, folder.Path, DamagedException.Words);
            return;
        }
        if (folder.Origin == FolderOrigin.Earlier) Adopted(log, folder.Path);
        if (folder is { Origin: FolderOrigin.Own, HadDatabase: false }) DatabaseMissing(log, folder.Path, DataFolder.DatabaseName);
        NoteInLedger();
        LookAtGrids();
        LookAtIncoming();
        if (strangers.Count > 0) Left(log, folder.Path, strangers.Count, string.Join(", ", strangers.Take(MostNamed)));
    }

    // Grids of a release that kept no ledger.
    private void NoteInLedger() => folder.Ledger.Keep([.. Query("SELECT id, file_name, bytes FROM grid", row => (row.GetString(0), row.GetString(1), row.GetInt64(2)))
        .Where(grid => OwnFiles.HasContent(Path.Combine(folder.Grids, grid.Item1)))]);

    private void LookAtGrids()
    {
        var known = Query("SELECT id FROM grid UNION SELECT coalesce(CASE WHEN json_valid(request) THEN json_extract(request, '$.id') END, '') FROM job WHERE kind = 'grid' AND state IN ('queued', 'running')", row => row.GetString(0)).ToHashSet();
        foreach (var entry in Directory.EnumerateFileSystemEntries(folder.Grids).Where(entry => !known.Contains(Path.GetFileName(entry)))) LookAtGrid(entry);
    }

    private void LookAtGrid(string path)
    {
        var id = Path.GetFileName(path);
        if (folder.Ledger.Of(id) is not { } line || !IsAsWritten(path, line)) strangers.Add($"{DataFolder.GridsName}/{id}");
        else if (line.IsDeleted) OwnFiles.Delete(path);
        else TakeUp(line, "");
    }

    private void LookAtIncoming()
    {
        foreach (var entry in Directory.EnumerateFileSystemEntries(folder.Incoming))
        {
            var name = Path.GetFileName(entry);
            var states = Query("SELECT state FROM job WHERE kind = 'grid' AND CASE WHEN json_valid(request) THEN json_extract(request, '$.held') END = $name", row => row.GetString(0), ("$name", name));
            if (states.Any(state => state is "queued" or "running")) continue;
            if (!folder.IsIncoming(name) || !OwnFiles.IsPlain(entry)) strangers.Add($"{DataFolder.IncomingName}/{name}");
            else if (states.Count == 0 && folder.Ledger.OfHeld(name) is { } held) TakeUp(held, name);
            else OwnFiles.Delete(entry);
        }
    }

    private static bool IsAsWritten(string path, GridLine line) =>
        new FileInfo(path) is var file && OwnFiles.IsPlain(file) && file.Length == line.Bytes && GridAddress.Of(line.Name, path) == line.Id;

    /// <summary>As if it had just arrived to be kept later: it is read, and kept if there is a grid in it.</summary>
    /// <param name="held">The name it waits under; none where it lies among the kept grids already.</param>
    private void TakeUp(GridLine line, string held)
    {
        var request = JsonSerializer.Serialize(new HeldGrid(line.Id, line.Name, held, line.Bytes), AnswerJson.Options);
        var isQueued = jobs.AddAsync(GridJob.Kind, request, clock.GetCurrentInstant(), CancellationToken.None).GetAwaiter().GetResult() is not null;
        if (isQueued) TakenUp(log, line.Name, line.Id);
        else Waits(log, line.Name, line.Id);
    }

    private List<T> Query<T>(string sql, Func<Microsoft.Data.Sqlite.SqliteDataReader, T> read, params (string Name, object? Value)[] values) =>
        folder.Database.Read(connection => connection.Query(sql, read, values));

    [LoggerMessage(Level = LogLevel.Error, Message = "{Folder}: {Words}")]
    private static partial void Damaged(ILogger log, string folder, string words);

    [LoggerMessage(Level = LogLevel.Warning, Message = "{Folder} is a data folder of an earlier release and is marked as ours now; nothing in it was deleted")]
    private static partial void Adopted(ILogger log, string folder);

    [LoggerMessage(Level = LogLevel.Warning, Message = "{Folder} has no {Database} any more, so a new one was made; grids that are still there are taken up again, the rest is in backups only")]
    private static partial void DatabaseMissing(ILogger log, string folder, string database);

    [LoggerMessage(Level = LogLevel.Warning, Message = "{Name} ({Id}) lies in the data folder and its database does not know it: it is read and kept again")]
    private static partial void TakenUp(ILogger log, string name, string id);

    [LoggerMessage(Level = LogLevel.Warning, Message = "{Name} ({Id}) lies in the data folder and its database does not know it; too much waits to take it up now, the next start will")]
    private static partial void Waits(ILogger log, string name, string id);

    [LoggerMessage(Level = LogLevel.Warning, Message = "{Count} files in {Folder} were not written by this service, or are not as it wrote them, and are left as they are: {Names}")]
    private static partial void Left(ILogger log, string folder, int count, string names);
}
