using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Keeps the tables of horizons that were used last, by the content of what they were made from: the same points over
/// the same ground and the same sight lines find their table again, whatever date is asked about and wherever the ground was
/// read from. Safe for many threads.</summary>
/// <param name="mostBytes">What the kept tables may hold together; the last one is kept in any case.</param>
/// <param name="store">Asked for what is not on the shelf, and given what is worked out; null for none.</param>
public sealed class HorizonShelf(long mostBytes = HorizonShelf.UsualBytes, IHorizonStore? store = null)
{
    private const long UsualBytes = 64 << 20;

    private static readonly ConditionalWeakTable<ElevationGrid, byte[]> GroundHashes = [];

    private readonly Lock gate = new();

    // The one used last stands last.
    private readonly List<(string Key, HorizonTable Table)> tables = [];

    private int workedOut;

    /// <summary>How many tables were neither on this shelf nor in its store.</summary>
    public int WorkedOut => Volatile.Read(ref workedOut);

    /// <summary>The table of these points: the kept one, else one worked out now.</summary>
    /// <inheritdoc cref="HorizonTable.Of(IReadOnlyList{Place}, ElevationGrid, SightModel, IProgress{double}, CancellationToken)"/>
    public HorizonTable Horizons(
        IReadOnlyList<Place> points, ElevationGrid grid, SightModel model, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        var key = KeyOf(points, grid, model);
        if (Find(key) is { } kept) return kept;
        var table = FindInStore(key) ?? WorkOut(key, points, grid, model, progress, cancel);
        Keep(key, table);
        return table;
    }

    /// <summary>The same for wherever the moon may stand; kept on the shelf alone.</summary>
    internal HorizonTable MoonHorizons(IReadOnlyList<Place> points, ElevationGrid grid, SightModel model, CancellationToken cancel)
    {
        var key = $"{KeyOf(points, grid, model)} moon";
        if (Find(key) is { } kept) return kept;
        var table = HorizonTable.Of(points, grid, model, Sky.SunReach.MoonDeclinationDeg, null, cancel);
        Keep(key, table);
        return table;
    }

    /// <summary>Says from what a table was made: equal for equal heights on equal posts, equal points and an equal model.</summary>
    public static string KeyOf(IReadOnlyList<Place> points, ElevationGrid grid, SightModel model)
    {
        ArgumentNullException.ThrowIfNull(points);
        ArgumentNullException.ThrowIfNull(model);
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(GroundHashes.GetValue(grid, HashOf));
        Append(hash, HorizonTable.Edition, HorizonDirections.StepDeg, model.RefractionK, WhatIsBeyond(model));
        foreach (var point in points) Append(hash, point.Point.LatitudeDeg, point.Point.LongitudeDeg, point.Height.Metres);
        return Convert.ToHexString(hash.GetHashAndReset());
    }

    /// <returns>Null where none is kept under this key.</returns>
    public HorizonTable? Find(string key)
    {
        lock (gate)
        {
            var at = tables.FindIndex(kept => kept.Key == key);
            if (at < 0) return null;
            var found = tables[at];
            tables.RemoveAt(at);
            tables.Add(found);
            return found.Table;
        }
    }

    /// <summary>Puts a table on the shelf, such as one read from its bytes.</summary>
    /// <param name="key">As <see cref="KeyOf"/> gives it.</param>
    public void Keep(string key, HorizonTable table)
    {
        ArgumentNullException.ThrowIfNull(table);
        lock (gate)
        {
            tables.RemoveAll(kept => kept.Key == key);
            tables.Add((key, table));
            while (tables.Count > 1 && tables.Sum(kept => kept.Table.Bytes) > mostBytes) tables.RemoveAt(0);
        }
    }

    private HorizonTable? FindInStore(string key)
    {
        try
        {
            return store?.Find(key) is { } bytes ? HorizonTableBytes.Read(bytes) : null;
        }
        catch (InvalidDataException)
        {
            // Damaged; the table worked out now takes their place.
            return null;
        }
    }

    private HorizonTable WorkOut(string key, IReadOnlyList<Place> points, ElevationGrid grid, SightModel model, IProgress<double>? progress, CancellationToken cancel)
    {
        var table = HorizonTable.Of(points, grid, model, progress, cancel);
        Interlocked.Increment(ref workedOut);
        store?.Keep(key, HorizonTableBytes.Write(table));
        return table;
    }

    private static byte[] HashOf(ElevationGrid grid)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var posts = grid.Posts;
        Append(hash, posts.Rows, posts.Columns, posts.Top, posts.Left, posts.RowStep, posts.ColumnStep);
        // What the projection does to three corners tells it from any other.
        foreach (var (x, y) in ((double, double)[])[(0, 0), (posts.Columns - 1, 0), (0, posts.Rows - 1)])
            Append(hash, posts.ToPoint(x, y).LatitudeDeg, posts.ToPoint(x, y).LongitudeDeg);
        for (var row = 0; row < posts.Rows; row++) hash.AppendData(MemoryMarshal.AsBytes(grid.Row(row)));
        return hash.GetHashAndReset();
    }

    // The heights along the edges belong to the ground, whose hash stands before it.
    private static double WhatIsBeyond(SightModel model) => model.BeyondGrid.Kind switch
    {
        PastEdgeKind.AsTheEdge => double.PositiveInfinity,
        PastEdgeKind.SmoothEarth => model.BeyondGrid.Height!.Value.Metres,
        _ => double.NaN,
    };

    private static void Append(IncrementalHash hash, params ReadOnlySpan<double> values) => hash.AppendData(MemoryMarshal.AsBytes(values));
}
