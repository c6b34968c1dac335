using System.Buffers.Binary;
using System.IO.Compression;
using System.Net;
using Glowcast.Engine.Terrain;

namespace Glowcast.Server.Tests.Api;

public class HillshadeApiTests(Service service)
{
    private const string Address = $"/api/grids/{MadeValley.GridId}/hillshade";

    // The last chunk of every PNG: no content, its name and its CRC (W3C PNG, Third Edition, section 11.2.4).
    private static readonly byte[] LastChunk = [0, 0, 0, 0, 0x49, 0x45, 0x4E, 0x44, 0xAE, 0x42, 0x60, 0x82];

    [Fact]
    public async Task The_relief_is_a_grey_png_of_the_window_asked_for()
    {
        using var response = await service.GetAsync($"{Address}?west=7.2&south=46.4&east=7.6&north=46.6&pixels=200");
        Assert.Equal("image/png", response.Content.Headers.ContentType!.MediaType);
        var png = await response.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken);

        var (width, height) = (BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(16)), BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(20)));
        Assert.Equal((200, 145), (width, height));
        Assert.Equal(LastChunk, png[^LastChunk.Length..]);
        var expected = Hillshade.Of(MadeValley.Grid, new GeoWindow(46.6, 46.4, 7.2, 7.6), width, height, TestContext.Current.CancellationToken);
        Assert.Equal(expected.Shades.ToArray(), PixelsOf(png, width, height));
    }

    [Fact]
    public async Task Without_a_window_the_whole_grid_is_shown_and_not_sent_twice()
    {
        using var first = await service.GetAsync(Address);
        Assert.Equal(HttpStatusCode.OK, first.StatusCode);

        using var again = new HttpRequestMessage(HttpMethod.Get, new Uri(Address, UriKind.Relative));
        again.Headers.IfNoneMatch.Add(first.Headers.ETag!);
        using var second = await service.Client.SendAsync(again, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NotModified, second.StatusCode);
        Assert.Empty(await second.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Windows_that_are_none_are_faults_and_so_are_pictures_too_large()
    {
        Assert.Equal(["pixels", "tilt"], (await service.GetAsync($"{Address}?pixels=100000&tilt=3").FaultsAsync()).Keys.Order(StringComparer.Ordinal));
        Assert.Equal(["east", "north"], (await service.GetAsync($"{Address}?west=8&east=7&south=47&north=46").FaultsAsync()).Keys.Order(StringComparer.Ordinal));
        await service.GetAsync("/api/grids/elsewhere/hillshade").ProblemAsync(HttpStatusCode.NotFound);
    }

    private static byte[] PixelsOf(byte[] png, int width, int height)
    {
        var name = png.AsSpan().IndexOf("IDAT"u8);
        using var unpacked = new ZLibStream(new MemoryStream(png, name + 4, BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(name - 4))), CompressionMode.Decompress);
        var pixels = new byte[width * height];
        for (var row = 0; row < height; row++)
        {
            Assert.Equal(1, unpacked.ReadByte());
            for (var (column, value) = (0, 0); column < width; column++)
            {
                value = (value + unpacked.ReadByte()) & 0xFF;
                pixels[(row * width) + column] = (byte)value;
            }
        }
        Assert.Equal(-1, unpacked.ReadByte());
        return pixels;
    }
}
