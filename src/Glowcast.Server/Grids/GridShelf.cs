using System.Collections.Concurrent;
using System.Text.Json;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Server.Answers;
using Glowcast.Server.Problems;
using Glowcast.Server.Store;
using Microsoft.Extensions.Caching.Memory;

namespace Glowcast.Server.Grids;

/// <summary>The elevation grids of this service by their ids: those it was started with, and those it was given since.</summary>
internal sealed class GridShelf(ServerOptions options, IGrids uploaded, ReadersMemory memory) : IDisposable
{
    private readonly ConcurrentDictionary<string, string> fingerprints = new();

    // What is kept in memory has no more posts than one plan may have.
    private readonly MemoryCache loaded = new(new MemoryCacheOptions { SizeLimit = sizeof(float) * options.MostPosts });
    private readonly SemaphoreSlim loading = new(1);

    /// <summary>Those of the start by name, then those given since, the latest first.</summary>
    public async Task<IReadOnlyList<GridEntry>> EntriesAsync(CancellationToken cancel) =>
    [
        .. options.Grids.OrderBy(grid => grid.Key, StringComparer.Ordinal).Select(grid => new GridEntry(grid.Key, GridAnswer.Of(grid.Value))),
        .. (await uploaded.AllAsync(cancel)).Select(EntryOf),
    ];

    public async Task<GridEntry?> EntryAsync(string id, CancellationToken cancel)
    {
        if (options.Grids.TryGetValue(id, out var grid)) return new GridEntry(id, GridAnswer.Of(grid));
        return await uploaded.FindAsync(id, cancel) is { } kept ? EntryOf(kept) : null;
    }

    /// <summary>The grid itself; null where there is none of that id.</summary>
    public async Task<ElevationGrid?> FindAsync(string id, CancellationToken cancel)
    {
        if (options.Grids.TryGetValue(id, out var grid) || loaded.TryGetValue(id, out grid)) return grid;
        if (await uploaded.FindAsync(id, cancel) is not { } kept) return null;
        await loading.WaitAsync(cancel);
        try
        {
            return loaded.TryGetValue(id, out grid) ? grid : await LoadAsync(kept, cancel);
        }
        finally
        {
            loading.Release();
        }
    }

    /// <summary>Those of a plan, joined.</summary>
    /// <param name="fillsHoles">Small holes are to be filled.</param>
    /// <exception cref="TooMuchException">Together they are larger than this service bears.</exception>
    /// <exception cref="BadInputException">They cannot be joined, or one has been deleted meanwhile.</exception>
    public async Task<ElevationGrid> JoinAsync(IEnumerable<string> ids, bool fillsHoles, CancellationToken cancel)
    {
        var (tiles, posts) = (new List<ElevationGrid>(), 0L);
        foreach (var id in ids.Distinct())
        {
            var tile = await FindAsync(id, cancel) ?? throw new BadInputException("grids", $"'{id}' is no longer a grid of this service.");
            posts += tile.Posts.Count;
            if (posts > options.MostPosts) throw new TooMuchException($"The grids have more than {options.MostPosts} posts together, which is all this service gives to one plan; give fewer.");
            tiles.Add(tile);
        }
        return GridMosaic.Join(tiles, new GridReading { FillHoles = fillsHoles, MostPosts = options.MostPosts });
    }

    /// <summary>Notes every id that no grid has.</summary>
    public async Task CheckAsync(IEnumerable<string> ids, Faults faults, CancellationToken cancel)
    {
        foreach (var id in ids)
            if (await EntryAsync(id, cancel) is null) faults.Add("grids", $"'{Shortened.To80(id)}' is not a grid of this service; {await SayAsync(cancel)}.");
    }

    /// <summary>Which grids are here, to go on after a semicolon.</summary>
    public async Task<string> SayAsync(CancellationToken cancel)
    {
        var entries = await EntriesAsync(cancel);
        return entries.Count > 0 ? $"it has {string.Join(", ", entries.Select(entry => entry.Id))}" : "it has none";
    }

    /// <summary>What tells a grid from every other, whatever its id.</summary>
    public string FingerprintOf(string id) =>
        options.Grids.TryGetValue(id, out var grid) ? fingerprints.GetOrAdd(id, _ => GridFingerprint.Of(grid)) : id;

    public void Forget(string id) => loaded.Remove(id);

    public void Dispose()
    {
        loaded.Dispose();
        loading.Dispose();
    }

    // A file is known by what it held when it was kept. It is looked at again whenever it is read, which costs little beside reading.
    private async Task<ElevationGrid?> LoadAsync(KeptGrid kept, CancellationToken cancel)
    {
        using var file = uploaded.Open(kept.Id);
        if (file is null) return null;
        if (GridAddress.Of(kept.FileName, file) != kept.Id)
            throw new BadInputException("grids", $"The file of grid '{kept.Id}' ({kept.FileName}) is no longer what it was when it was kept: it has been changed or damaged on the disk, and is not used. Delete the grid and send the file anew.");
        var grid = await memory.ReadAsync(file, kept.FileName, cancel);
        return loaded.Set(kept.Id, grid, new MemoryCacheEntryOptions { Size = (long)sizeof(float) * grid.Posts.Rows * grid.Posts.Columns });
    }

    private static GridEntry EntryOf(KeptGrid kept) => new(kept.Id, JsonSerializer.Deserialize<GridAnswer>(kept.Facts, AnswerJson.Options)!);
}

/// <summary>An elevation grid of this service.</summary>
/// <param name="Id">What plans name it by.</param>
public sealed record GridEntry(string Id, GridAnswer Grid);
