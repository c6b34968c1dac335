using System.Net;
using Glowcast.Engine.Terrain;
using SkiaSharp;

namespace Glowcast.Server.Tests.Api;

public class HillshadeApiTests(Service service)
{
    private const string Address = $"/api/grids/{MadeValley.GridId}/hillshade";

    [Fact]
    public async Task The_relief_is_a_grey_png_of_the_window_asked_for()
    {
        using var response = await service.GetAsync($"{Address}?west=7.2&south=46.4&east=7.6&north=46.6&pixels=200");
        Assert.Equal("image/png", response.Content.Headers.ContentType!.MediaType);
        var png = await response.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken);

        using var picture = SKBitmap.Decode(png);
        Assert.Equal((200, 145), (picture.Width, picture.Height));
        var expected = Hillshade.Of(MadeValley.Grid, new GeoWindow(46.6, 46.4, 7.2, 7.6), picture.Width, picture.Height, TestContext.Current.CancellationToken);
        Assert.Equal(expected.Shades.ToArray().Select(shade => new SKColor(shade, shade, shade, shade == 0 ? byte.MinValue : byte.MaxValue)), picture.Pixels);
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
}
