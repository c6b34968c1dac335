using System.Buffers.Binary;
using System.Text.Json;

namespace Glowcast.Server.Tests.Page;

/// <summary>What a home screen reads (W3C, Web Application Manifest).</summary>
public class ManifestTests
{
    private static readonly byte[] PngSignature = [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A];

    private static readonly List<JsonElement> Icons =
        [.. JsonDocument.Parse(PageSource.Text("/app.webmanifest")).RootElement.GetProperty("icons").EnumerateArray()];

    [Fact]
    public void There_are_icons_of_both_usual_sizes_and_one_that_may_be_cut_to_any_shape()
    {
        Assert.Equal(["192x192", "512x512"], Of("any", "image/png").Select(Sizes));
        Assert.Equal(["512x512"], Of("maskable", "image/png").Select(Sizes));
    }

    [Fact]
    public void Each_icon_is_a_png_of_the_size_stated() => Assert.All(Icons.Where(icon => icon.GetProperty("type").GetString() == "image/png"), icon =>
    {
        var png = PageSource.Bytes($"/{icon.GetProperty("src").GetString()}");
        Assert.Equal(PngSignature, png[..8]);
        // W3C, Portable Network Graphics, 11.2.1: IHDR comes first, and begins with width and height.
        var (width, height) = (BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(16)), BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(20)));
        Assert.Equal(Sizes(icon), $"{width}x{height}");
    });

    private static IEnumerable<JsonElement> Of(string purpose, string type) => Icons.Where(icon =>
        (icon.TryGetProperty("purpose", out var stated) ? stated.GetString() : "any") == purpose && icon.GetProperty("type").GetString() == type);

    private static string Sizes(JsonElement icon) => icon.GetProperty("sizes").GetString()!;
}
