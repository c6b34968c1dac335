using System.Threading.RateLimiting;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Take;
using Glowcast.Engine.Terrain;
using Glowcast.Server.Problems;

namespace Glowcast.Server.Grids;

/// <summary>The memory that all readers of foreign files have together (<see cref="ServerOptions.MostReadingBytes"/>): each takes its
/// share before it reads, by what its file will cost, and waits in line until there is as much.</summary>
internal sealed class ReadersMemory(ServerOptions options) : IDisposable
{
    private const long Portion = 1 << 20;
    private const int WaitingFor = 64;

    private readonly ConcurrencyLimiter portions = new(new ConcurrencyLimiterOptions
    {
        PermitLimit = PortionsOf(options.MostReadingBytes),
        QueueLimit = WaitingFor * PortionsOf(options.MostReadingBytes),
        QueueProcessingOrder = QueueProcessingOrder.OldestFirst,
    });

    /// <summary>Reads a grid whole, if it is not larger than this service bears.</summary>
    /// <exception cref="BadInputException">No grid, or one that would take more memory than there is.</exception>
    /// <exception cref="TooBusyException">Too many wait already.</exception>
    public async Task<ElevationGrid> ReadAsync(Stream file, string fileName, CancellationToken cancel)
    {
        var source = GridFile.Open(file, fileName);
        var posts = (long)source.Posts.Rows * source.Posts.Columns;
        var bytes = (sizeof(float) * posts) + source.ReadingBytes;
        if (posts > options.MostPosts || bytes > options.MostReadingBytes)
            throw new BadInputException(fileName, $"Has {source.Posts.Columns} × {source.Posts.Rows} posts, and reading them takes {bytes >> 20} MiB; this service takes grids of at most {options.MostPosts} posts and {options.MostReadingBytes >> 20} MiB. Cut it to the country around the lookout, or read it with the command line.");
        using var share = await TakeAsync(bytes, cancel);
        return GridMosaic.Read([source]);
    }

    /// <summary>Reads what a camera wrote into the beginning of a picture file.</summary>
    /// <exception cref="BadInputException">No picture file, or a broken one.</exception>
    /// <exception cref="TooBusyException">Too many wait already.</exception>
    public async Task<ShotFrame> ReadAsync(MemoryStream head, string name, CancellationToken cancel)
    {
        using var share = await TakeAsync(Math.Min(FrameReader.MostWorkingBytes, options.MostReadingBytes), cancel);
        return FrameReader.Read(head, name);
    }

    public void Dispose() => portions.Dispose();

    private static int PortionsOf(long bytes) => (int)Math.Max(1, bytes / Portion);

    private async Task<IDisposable> TakeAsync(long bytes, CancellationToken cancel)
    {
        var share = await portions.AcquireAsync(PortionsOf(bytes), cancel);
        if (share.IsAcquired) return share;
        share.Dispose();
        throw new TooBusyException();
    }
}
