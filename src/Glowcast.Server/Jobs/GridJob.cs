using System.Text.Json;
using Glowcast.Server.Answers;
using Glowcast.Server.Grids;
using Glowcast.Server.Store;

namespace Glowcast.Server.Jobs;

/// <summary>Reads and keeps a grid that has arrived and is held.</summary>
internal sealed class GridJob(IGrids grids, GridShelf shelf, GridReception reception) : IJobKind
{
    public const string Kind = "grid";

    public string Name => Kind;

    public async Task<byte[]> DoAsync(string request, IProgress<double> progress, CancellationToken cancel)
    {
        var held = Read(request);
        // A service that ended between keeping it and saying so has left nothing held.
        var entry = await shelf.EntryAsync(held.Id, cancel) ?? (await reception.KeepAsync(grids.TakeUp(held), cancel)).Entry;
        return JsonSerializer.SerializeToUtf8Bytes(entry, AnswerJson.Options);
    }

    public void Release(string request) => grids.Drop(Read(request));

    private static HeldGrid Read(string request) => JsonSerializer.Deserialize<HeldGrid>(request, AnswerJson.Options)!;
}
