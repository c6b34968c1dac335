using System.Diagnostics.CodeAnalysis;
using Microsoft.AspNetCore.Http.Features;

namespace Glowcast.Server.Store;

/// <summary>A body that has arrived and lies on the disk until its turn has come, so that those who wait take no memory.</summary>
internal sealed class SpooledBody : IDisposable
{
    private readonly string path;

    private SpooledBody(string path) => this.path = path;

    /// <param name="longest">It may take to arrive.</param>
    /// <exception cref="BadHttpRequestException">It is too large, too slow, or broken.</exception>
    /// <exception cref="IOException">Such as that the disk is full; nothing is left of it then.</exception>
    [SuppressMessage("Reliability", "CA2000", Justification = "It is handed on, or disposed of where that fails.")]
    public static async Task<SpooledBody> OfAsync(HttpContext context, DataFolder folder, long mostBytes, TimeSpan longest)
    {
        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit) limit.MaxRequestBodySize = mostBytes;
        var spooled = new SpooledBody(folder.NewIncoming());
        try
        {
            await using var file = OwnFiles.Create(spooled.path, FileOptions.Asynchronous, FileShare.None);
            await Arrival.WithinAsync(longest, cancel => context.Request.Body.CopyToAsync(file, cancel), context.RequestAborted);
            return spooled;
        }
        catch
        {
            spooled.Dispose();
            throw;
        }
    }

    public byte[] ReadAll() => File.ReadAllBytes(path);

    public void Dispose() => OwnFiles.Delete(path);
}
