using System.IO.Hashing;

namespace Glowcast.Engine.Terrain;

/// <summary>A stream that is only read onwards, and the CRC-32 of what has been read of it.</summary>
internal sealed class ChecksummedStream(Stream content) : Stream
{
    private readonly Crc32 sum = new();

    public uint Crc32 => sum.GetCurrentHashAsUInt32();

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length => throw new NotSupportedException();

    public override long Position
    {
        get => throw new NotSupportedException();
        set => throw new NotSupportedException();
    }

    public override int Read(Span<byte> buffer)
    {
        var count = content.Read(buffer);
        sum.Append(buffer[..count]);
        return count;
    }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override void Flush()
    {
    }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    protected override void Dispose(bool disposing)
    {
        if (disposing) content.Dispose();
        base.Dispose(disposing);
    }
}
