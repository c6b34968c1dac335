using System.IO.Compression;
using System.Text;
using BitMiracle.LibJpeg.Classic;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Take;

namespace Glowcast.Engine.Tests.Take;

/// <summary>Small files made to cost much: what they cost is bounded. A reader that calls itself once a level would end the
/// whole program here; allocated memory stands for the work, since it does not depend on how busy the machine is.</summary>
public class HostilePictureTests
{
    private const int FewBytes = 4 << 20;

    private static readonly string Nested = $"<x:xmpmeta xmlns:x='adobe:ns:meta/'>{string.Concat(Enumerable.Repeat("<a>", 80_000))}";

    [Fact]
    public void Nested_xmp_is_never_looked_at()
    {
        var segment = Encoding.ASCII.GetBytes("http://ns.adobe.com/xap/1.0/\0" + Nested)[..65_000];
        Assert.Equal("Maker Model", Cheap(MadeContainers.Jpeg([(0xE1, segment), (0xE1, [.. "Exif\0\0"u8, .. MadeTags.OfShot()])]))!.Camera);
        // Of TIFF it has the tag 700.
        Assert.Equal("Maker Model", Cheap(MadeTags.OfShot(more: (700, Encoding.ASCII.GetBytes(Nested))))!.Camera);
    }

    [Theory]
    [InlineData("zTXt", "Raw profile type exif\0\0")]
    [InlineData("zTXt", "XML:com.adobe.xmp\0\0")]
    [InlineData("iTXt", "XML:com.adobe.xmp\0\u0001\0\0\0")]
    [InlineData("iCCP", "profile\0\0")]
    public void Nothing_is_unfolded(string chunk, string head)
    {
        using var bomb = new MemoryStream();
        bomb.Write(Encoding.Latin1.GetBytes(head));
        using (var zlib = new ZLibStream(bomb, CompressionLevel.Fastest, leaveOpen: true)) zlib.Write(new byte[100 << 20]);
        var png = MadeContainers.Png(("IHDR", new byte[13]), (chunk, bomb.ToArray()), ("eXIf", MadeTags.OfShot()), ("IEND", []));
        Assert.Equal("Maker Model", Cheap(png)!.Camera);
    }

    [Fact]
    public void Directories_in_circles_and_without_end_are_left()
    {
        // Directories of nothing but sub-directories, each pointing to all the others.
        const int directories = 2000;
        using var made = new MemoryStream();
        var writer = new BinaryWriter(made);
        writer.Write("II*\0"u8);
        writer.Write(8u);
        for (var i = 0; i < directories; i++)
        {
            writer.Write((ushort)3);
            foreach (var (tag, step) in new[] { ((ushort)0x014A, 1), ((ushort)0x8769, 7), ((ushort)0x8769, 13) })
            {
                writer.Write(tag);
                writer.Write((ushort)4);
                writer.Write(1u);
                writer.Write((uint)(8 + ((i + step) % directories * 42)));
            }
            writer.Write((uint)(8 + ((i + 1) % directories * 42)));
        }
        Assert.NotNull(Cheap(made.ToArray()));
        using var stream = new MemoryStream(made.ToArray());
        Assert.Equal(TagWalk.MostDirectories, PictureFile.Read(stream, "made").Directories.Count);
    }

    [Fact]
    public void No_more_of_a_file_is_read_than_tags_need()
    {
        // Text of the tags strewn over 400 MB: each lies on a page of its own.
        var made = new MemoryStream();
        var writer = new BinaryWriter(made);
        writer.Write("II*\0"u8);
        writer.Write(8u);
        writer.Write(ushort.MaxValue);
        for (var i = 0; i < ushort.MaxValue; i++)
        {
            writer.Write((ushort)0x010F);
            writer.Write((ushort)2);
            writer.Write(256u);
            writer.Write((uint)((i + 1) * 6000));
        }
        using var sparse = new LongZeros(made.ToArray(), 400L << 20);
        var parts = PictureFile.Read(sparse, "made");
        Assert.InRange(parts.Bytes.PagesRead, 1, PictureBytes.MostPages);
        Assert.True(sparse.BytesRead <= (long)PictureBytes.MostPages * PictureBytes.PageBytes);
    }

    [Theory]
    [InlineData(0xFF)] // filling bytes
    [InlineData(0xD0)] // a restart, over and over
    public void Markers_without_end_are_left(byte second)
    {
        var bytes = new byte[20 << 20];
        for (var i = 0; i < bytes.Length; i += 2) (bytes[i], bytes[i + 1]) = (0xFF, second);
        bytes[1] = 0xD8;
        Assert.NotNull(Cheap(bytes, FewBytes + (64 << 20)));
    }

    [Fact]
    public void A_progressive_picture_of_very_many_scans_is_not_decoded()
    {
        var jpeg = Progressive(800, 600);
        using var usual = new MemoryStream(jpeg);
        Assert.NotNull(FrameReader.Read(usual, "usual").Glance);
        // Its last scan over and over: each costs a pass over the whole picture.
        var last = jpeg.AsSpan().LastIndexOf([(byte)0xFF, (byte)0xDA]);
        using var many = new MemoryStream([.. jpeg[..^2], .. Enumerable.Repeat(jpeg[last..^2], DecodingBudget.MostScans).SelectMany(scan => scan), 0xFF, 0xD9]);
        Assert.Null(FrameReader.Read(many, "many").Glance);
    }

    [Fact]
    public void Small_pictures_without_number_are_not_all_tried()
    {
        var budget = new DecodingBudget();
        var tried = 0;
        while (budget.TryTakePicture(1000)) tried++;
        Assert.InRange(tried, 8, 16);
        Assert.False(new DecodingBudget().TryTakePicture(1L << 30));
        Assert.False(new DecodingBudget().TryTakePixels(1_000_000_000, 1));
    }

    [Theory]
    [InlineData("GIF89a")]
    [InlineData("RIFF\0\0\0\0AVI LIST")]
    [InlineData("<?xml version='1.0'?>")]
    [InlineData("8BPS\0\u0001")]
    public void Other_files_are_refused(string begin)
    {
        using var stream = new MemoryStream([.. Encoding.Latin1.GetBytes(begin), .. new byte[1000]]);
        Assert.Contains("Is no picture file", Assert.Throws<BadInputException>(() => FrameReader.Read(stream, "other")).Message, StringComparison.Ordinal);
    }

    private static byte[] Progressive(int wide, int high)
    {
        var stream = new MemoryStream();
        var encoder = new jpeg_compress_struct(new jpeg_error_mgr());
        encoder.jpeg_stdio_dest(stream);
        (encoder.Image_width, encoder.Image_height, encoder.Input_components, encoder.In_color_space) = (wide, high, 1, J_COLOR_SPACE.JCS_GRAYSCALE);
        encoder.jpeg_set_defaults();
        encoder.jpeg_simple_progression();
        encoder.jpeg_start_compress(true);
        var line = new[] { new byte[wide] };
        for (var y = 0; y < high; y++)
        {
            for (var x = 0; x < wide; x++) line[0][x] = (byte)(x + y);
            encoder.jpeg_write_scanlines(line, 1);
        }
        encoder.jpeg_finish_compress();
        return stream.ToArray();
    }

    private static ShotFrame? Cheap(byte[] bytes, long mostAllocated = FewBytes)
    {
        using var stream = new MemoryStream(bytes, writable: false);
        var before = GC.GetAllocatedBytesForCurrentThread();
        var frame = FrameReader.Read(stream, "hostile");
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, mostAllocated);
        return frame;
    }

    /// <summary>A beginning, and zeros after it that take no memory.</summary>
    private sealed class LongZeros(byte[] begin, long length) : Stream
    {
        public long BytesRead { get; private set; }

        public override bool CanRead => true;

        public override bool CanSeek => true;

        public override bool CanWrite => false;

        public override long Length => length;

        public override long Position { get; set; }

        public override int Read(byte[] buffer, int offset, int count)
        {
            count = (int)Math.Min(count, length - Position);
            Array.Clear(buffer, offset, count);
            for (var i = 0; i < count && Position + i < begin.Length; i++) buffer[offset + i] = begin[Position + i];
            Position += count;
            BytesRead += count;
            return count;
        }

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

        public override void Flush()
        {
        }
    }
}
