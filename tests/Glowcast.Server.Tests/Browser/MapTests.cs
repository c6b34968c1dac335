using System.Globalization;
using System.Text.RegularExpressions;

namespace Glowcast.Server.Tests.Browser;

/// <summary>The hillshade, moved and zoomed by mouse, keys and fingers; where it is, it says itself when its middle is picked.</summary>
[Trait("Category", "Browser")]
public partial class MapTests(Service service, Chromium chromium)
{
    [FactNeeds<Chromium>]
    public async Task Arrows_move_the_map_and_plus_and_minus_zoom_it_about_its_middle()
    {
        await using var page = await OpenAsync();
        var home = await MiddleAsync(page);
        // The lookout, which the map opens on.
        Assert.Equal(46.5, home.LatitudeDeg, 1e-3);

        await KeyAsync(page, "ArrowRight");
        var moved = await MiddleAsync(page);
        Assert.True(moved.LongitudeDeg > home.LongitudeDeg);
        Assert.Equal(home.LatitudeDeg, moved.LatitudeDeg, 1e-4);
        await KeyAsync(page, "ArrowLeft");
        await KeyAsync(page, "ArrowUp");
        var up = await MiddleAsync(page);
        Assert.True(up.LatitudeDeg > home.LatitudeDeg);
        Assert.Equal(home.LongitudeDeg, up.LongitudeDeg, 1e-4);
        await KeyAsync(page, "ArrowDown");

        foreach (var _ in Enumerable.Range(0, 4)) await KeyAsync(page, "+");
        var zoomed = await MiddleAsync(page);
        Assert.Equal(home.LatitudeDeg, zoomed.LatitudeDeg, 1e-4);
        await KeyAsync(page, "ArrowRight");
        // Each + is a quarter, so that one arrow now goes less far by 1.25⁴; places are said to 0.0001°.
        Assert.Equal((moved.LongitudeDeg - home.LongitudeDeg) / Math.Pow(1.25, 4), (await MiddleAsync(page)).LongitudeDeg - home.LongitudeDeg, 2e-4);
        foreach (var _ in Enumerable.Range(0, 4)) await KeyAsync(page, "-");
        Assert.Empty(page.Complaints);
    }

    [FactNeeds<Chromium>]
    public async Task A_mouse_drags_the_ground_along_and_its_wheel_zooms_about_the_pointer()
    {
        await using var page = await OpenAsync();
        var (home, shade) = (await MiddleAsync(page), await page.Tab.EvaluateExpressionAsync<string>("document.querySelector('.map canvas').toDataURL()"));
        await page.DragAsync(".map", 120, 80);
        var moved = await MiddleAsync(page);
        // Ground follows the hand, so the middle goes the other way: west and north.
        Assert.True(moved.LongitudeDeg < home.LongitudeDeg && moved.LatitudeDeg > home.LatitudeDeg);
        Assert.Equal(120.0 / 80, (home.LongitudeDeg - moved.LongitudeDeg) * Math.Cos(double.DegreesToRadians(46.5)) / (moved.LatitudeDeg - home.LatitudeDeg), 0.02);
        Assert.NotEqual(shade, await page.Tab.EvaluateExpressionAsync<string>("document.querySelector('.map canvas').toDataURL()"));

        var box = await BoxAsync(page);
        var (x, y) = (box[0] + (box[2] / 4), box[1] + (box[3] / 3));
        await page.Tab.Mouse.ClickAsync(x, y);
        var under = PlaceIn(await page.TextAsync("#map [role=status]"));
        await page.Tab.Mouse.WheelAsync(0, -100);
        await page.RestAsync();
        await page.Tab.Mouse.ClickAsync(x, y);
        var still = PlaceIn(await page.TextAsync("#map [role=status]"));
        Assert.Equal(under.LatitudeDeg, still.LatitudeDeg, 1.1e-4);
        Assert.Equal(under.LongitudeDeg, still.LongitudeDeg, 1.1e-4);
        Assert.NotEqual(moved, await MiddleAsync(page));
        Assert.Empty(page.Complaints);
    }

    [FactNeeds<Chromium>]
    public async Task Two_fingers_zoom_and_one_moves_without_picking_anything()
    {
        await using var page = await OpenAsync(isTouch: true);
        var home = await MiddleAsync(page);
        await page.TouchAsync(".map", -60, 0);
        var moved = await MiddleAsync(page);
        var perPx = (moved.LongitudeDeg - home.LongitudeDeg) / 60;
        Assert.True(perPx > 0);
        await page.TouchAsync(".map", 60, 0);

        // Apart from 80 px to 240 px about the middle: three times as large.
        var said = await page.TextAsync("#map [role=status]");
        await PinchAsync(page, 40, 120);
        Assert.Equal(said, await page.TextAsync("#map [role=status]"));
        Assert.Equal(home.LongitudeDeg, (await MiddleAsync(page)).LongitudeDeg, perPx / 4);
        await page.TouchAsync(".map", -60, 0);
        Assert.Equal(20 * perPx, (await MiddleAsync(page)).LongitudeDeg - home.LongitudeDeg, perPx / 4);
        Assert.Empty(page.Complaints);
    }

    private async Task<VisitedPage> OpenAsync(bool isTouch = false)
    {
        var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!, isTouch ? 390 : 1280, 844, isTouch);
        await page.UntilDrawnAsync();
        await page.UntilAsync("document.querySelector('.map svg') !== null");
        return page;
    }

    private static async Task KeyAsync(VisitedPage page, string key)
    {
        await page.Tab.FocusAsync(".map");
        await page.Tab.Keyboard.PressAsync(key);
    }

    private static async Task<Place> MiddleAsync(VisitedPage page)
    {
        await KeyAsync(page, "Enter");
        return PlaceIn(await page.TextAsync("#map [role=status]"));
    }

    private static async Task PinchAsync(VisitedPage page, int from, int to)
    {
        var box = await BoxAsync(page);
        var (x, y) = ((double)(box[0] + (box[2] / 2)), (double)(box[1] + (box[3] / 2)));
        Task TouchAsync(string type, int? half) => page.Tab.Client.SendAsync("Input.dispatchTouchEvent", new
        {
            type,
            touchPoints = half is { } apart ? new object[] { new { x = x - apart, y, id = 0 }, new { x = x + apart, y, id = 1 } } : [],
        });
        await TouchAsync("touchStart", from);
        for (var step = 1; step <= 4; step++) await TouchAsync("touchMove", from + ((to - from) * step / 4));
        await TouchAsync("touchEnd", null);
        await page.RestAsync();
    }

    /// <summary>Left, top, width and height of the map in the window, after it was brought there.</summary>
    private static Task<decimal[]> BoxAsync(VisitedPage page) => page.Tab.EvaluateFunctionAsync<decimal[]>(
        """
        () => {
          const map = document.querySelector('.map');
          map.scrollIntoView({ block: 'center', behavior: 'instant' });
          const { left, top, width, height } = map.getBoundingClientRect();
          return [left, top, width, height];
        }
        """);

    private static Place PlaceIn(string text)
    {
        var found = Coordinates().Match(text);
        Assert.True(found.Success, text);
        return new Place(double.Parse(found.Groups[1].Value, CultureInfo.InvariantCulture), double.Parse(found.Groups[2].Value, CultureInfo.InvariantCulture));
    }

    [GeneratedRegex("([0-9.]+)° N, ([0-9.]+)° E")]
    private static partial Regex Coordinates();

    private sealed record Place(double LatitudeDeg, double LongitudeDeg);
}
