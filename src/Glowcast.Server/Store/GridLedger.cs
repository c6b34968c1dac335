using System.Text.Json;
using Glowcast.Engine.Measures;
using Glowcast.Server.Answers;

namespace Glowcast.Server.Store;

/// <summary>What this service has written into the folders of grids, line by line: it stands beside the database, so that a file can be told to be ours,
/// and be taken up again, when the database is lost, old or damaged.</summary>
/// <remarks>Lines are only ever added. One that was cut off by a kill is passed over.</remarks>
internal sealed class GridLedger
{
    public const string FileName = "glowcast-grids.jsonl";

    private readonly string path;
    private readonly Lock writing = new();
    private readonly Dictionary<string, GridLine> grids = [];
    private readonly Dictionary<string, GridLine> held = [];

    /// <param name="folder">The data folder.</param>
    public GridLedger(string folder)
    {
        path = Path.Combine(folder, FileName);
        if (!OwnFiles.HasContent(path)) return;
        foreach (var line in File.ReadLines(path)) Note(Read(line));
    }

    /// <summary>What was last said of a grid; null for nothing.</summary>
    public GridLine? Of(string id)
    {
        lock (writing) return grids.GetValueOrDefault(id);
    }

    /// <summary>What was said of a file that had arrived to be kept later; null for nothing.</summary>
    /// <param name="name">In the folder of what is arriving.</param>
    public GridLine? OfHeld(string name)
    {
        lock (writing) return held.GetValueOrDefault(name);
    }

    /// <summary>Before a file is moved to where it stays.</summary>
    public void Keep(params IReadOnlyCollection<(string Id, string Name, long Bytes)> kept)
    {
        lock (writing) Add([.. kept.Where(grid => Of(grid.Id) is not { IsDeleted: false }).Select(grid => new GridLine(grid.Id, grid.Name, grid.Bytes))]);
    }

    /// <summary>When a user wants a grid to be gone.</summary>
    public void Delete(string id)
    {
        lock (writing)
            if (Of(id) is { IsDeleted: false } kept) Add([kept with { IsDeleted = true }]);
    }

    public void Hold(HeldGrid grid)
    {
        lock (writing) Add([new GridLine(grid.Id, grid.FileName, grid.Bytes, grid.Held)]);
    }

    private void Add(IReadOnlyList<GridLine> lines)
    {
        if (lines.Count == 0) return;
        using (var file = OwnFiles.IsPlain(path) ? new FileStream(path, FileMode.Open, FileAccess.ReadWrite, FileShare.Read) : OwnFiles.Create(path))
        {
            if (!file.CanSeek) throw new BadInputException("data", $"Its {FileName} is no file; move it away, and the service writes a new one.");
            var before = file.Length;
            try
            {
                // Whatever a kill has cut off ends here.
                file.Seek(0, SeekOrigin.End);
                file.Write([(byte)'\n']);
                foreach (var line in lines) file.Write([.. JsonSerializer.SerializeToUtf8Bytes(line, AnswerJson.Options), (byte)'\n']);
                file.Flush(flushToDisk: true);
            }
            catch (IOException)
            {
                file.SetLength(before);
                throw;
            }
        }
        foreach (var line in lines) Note(line);
    }

    private void Note(GridLine? line)
    {
        if (line is null) return;
        if (line.Held is { } name) held[name] = line;
        else grids[line.Id] = line;
    }

    private static GridLine? Read(string line)
    {
        try
        {
            return line.Length > 0 && JsonSerializer.Deserialize<GridLine>(line, AnswerJson.Options) is { Id: not null, Name: not null } read ? read : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }
}

/// <param name="Id">Its address.</param>
/// <param name="Name">As the client called it.</param>
/// <param name="Held">Where it waits to be kept later; null where it is kept.</param>
/// <param name="IsDeleted">A user wants it to be gone.</param>
internal sealed record GridLine(string Id, string Name, long Bytes, string? Held = null, bool IsDeleted = false);
