using System.Text.Json;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Server.Answers;
using Glowcast.Server.Problems;
using Glowcast.Server.Store;
using NodaTime;

namespace Glowcast.Server.Grids;

/// <summary>Looks at what arrived, and keeps it only if the readers find a grid in it.</summary>
internal sealed class GridReception(IGrids grids, IClock clock, Queues queues)
{
    private const int LongestName = 120;

    /// <summary>Waits until there is room for one more to arrive.</summary>
    /// <returns>To be disposed when it has been dealt with.</returns>
    /// <exception cref="TooBusyException">Too many wait already.</exception>
    public Task<IDisposable> WaitForRoomAsync(CancellationToken cancel) => queues.Arriving.TakeAsync(cancel);

    /// <summary>Notes what is wrong with a file's name. It tells the format and, in some, the place; no file is ever called by it.</summary>
    public static string ReadName(string? name, Faults faults)
    {
        if (string.IsNullOrEmpty(name)) faults.Add("name", "Is missing; give the file's name, such as N46E007.hgt: it tells the format, and in some the place.");
        else if (name.Length > LongestName || name.Any(char.IsControl) || name.AsSpan().IndexOfAny('/', '\\') >= 0)
            faults.Add("name", $"Must be a file's name alone, of at most {LongestName} characters, such as N46E007.hgt.");
        return name ?? "";
    }

    /// <returns>The grid as it is now known, and whether it is new.</returns>
    /// <exception cref="BadInputException">No grid that can be read; says why under the field "file".</exception>
    public async Task<(GridEntry Entry, bool IsNew)> KeepAsync(ArrivedGrid arrived, CancellationToken cancel)
    {
        var entry = new GridEntry(arrived.Id, await LookAsync(arrived, cancel));
        var isNew = await grids.KeepAsync(arrived, JsonSerializer.Serialize(entry.Grid, AnswerJson.Options), clock.GetCurrentInstant(), cancel);
        return (entry, isNew);
    }

    private async Task<GridAnswer> LookAsync(ArrivedGrid arrived, CancellationToken cancel)
    {
        using var turn = await queues.ReadingGrids.TakeAsync(cancel);
        try
        {
            using var file = arrived.Open();
            return GridAnswer.Of(GridFile.Read(file, arrived.FileName));
        }
        catch (BadInputException bad)
        {
            throw new BadInputException([.. bad.Faults.Select(fault => fault with { Field = "file" })]);
        }
    }
}
