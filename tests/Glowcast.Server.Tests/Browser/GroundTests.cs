using Glowcast.Engine.Terrain;

namespace Glowcast.Server.Tests.Browser;

/// <summary>Where: grids taken in, the lookout placed, the span chosen, summits named.</summary>
[Trait("Category", "Browser")]
public class GroundTests(Service service, Chromium chromium)
{
    [FactNeeds<Chromium>]
    public async Task From_an_empty_folder_to_the_field_card_by_a_dropped_grid_and_five_clicks()
    {
        await using var data = new DataOfATest();
        using var client = await data.StartAsync(options => options with { Grids = new Dictionary<string, ElevationGrid>() });
        await using var page = await VisitedPage.OpenAsync(chromium, client.BaseAddress!);
        await page.UntilAsync("document.getElementById('progress').textContent.includes('Drop an elevation grid')");

        await page.DropFileAsync(data.Folder, "N46E007.hgt", MadeValley.Hgt());
        await page.UntilAsync("document.getElementById('grids').textContent.includes('taken in') && document.querySelectorAll('#grids input:checked').length === 1");
        await page.UntilAsync($"{Sample("#map canvas")} > 2");

        await page.Tab.EvaluateExpressionAsync("document.getElementById('plan-date').value = '2026-10-20'");
        // The made valley: a lookout on the eastern ridge, a look at the western one, both half-way up the tile.
        await page.Tab.FocusAsync(".map");
        await ClickMapAsync(page, 699 / 1200.0, 0.5);
        await page.Tab.ClickAsync("#map .buttons button:nth-child(3)");
        await ClickMapAsync(page, 500 / 1200.0, 0.5);
        await page.Tab.ClickAsync("#map .buttons button:nth-child(4)");
        await page.UntilAsync("!document.getElementById('verdict').hidden && !document.body.classList.contains('working')");
        Assert.Matches("46\\.(49|50)", await page.TextAsync("#where"));
        Assert.Contains("bearings 2", await page.TextAsync("#where"), StringComparison.Ordinal);
        Assert.True((await page.LookAsync("#ridge-panel canvas")).Colours > 50);

        await page.Tab.ClickAsync("#along button");
        await page.UntilAsync("/: (?!being made)/.test(document.querySelector('#along [role=status]').textContent)");
        Assert.Equal("Field card: saved.", await page.TextAsync("#along [role=status]"));
    }

    [FactNeeds<Chromium>]
    public async Task A_file_that_is_no_grid_is_refused_with_the_reason()
    {
        await using var data = new DataOfATest();
        using var client = await data.StartAsync();
        await using var page = await VisitedPage.OpenAsync(chromium, client.BaseAddress!);
        await page.UntilAsync("document.querySelectorAll('#grids input[type=checkbox]').length === 1");
        await page.ChooseFileAsync(data.Folder, "N46E007.hgt", [1, 2, 3]);
        await page.UntilAsync("document.querySelector('#grids .missing') !== null");
        Assert.StartsWith("N46E007.hgt was refused: ", await page.TextAsync("#grids .missing"), StringComparison.Ordinal);
        Assert.Equal(1, await page.CountAsync("#grids input[type=checkbox]"));
    }

    [FactNeeds<Chromium>]
    public async Task Summits_of_a_file_are_named_in_the_picture_where_they_are_in_sight()
    {
        await using var data = new DataOfATest();
        await using var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!);
        await page.UntilDrawnAsync();
        // The western crest stands on 7 + 500 / 1200 °E; what lies 5 km behind it cannot be seen.
        await page.ChooseFileAsync(data.Folder, "summits.gpx", """
            <gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1">
              <wpt lat="46.5" lon="7.416667"><name>West Crest</name></wpt>
              <wpt lat="46.5" lon="7.35"><name>Hidden Farm</name></wpt>
            </gpx>
            """u8.ToArray());
        await page.UntilAsync("document.querySelectorAll('#ridge-panel .summit').length > 0");
        Assert.Equal("West Crest", await page.TextAsync("#ridge-panel .summit"));
        Assert.Equal(1, await page.CountAsync("#ridge-panel .summit"));
    }

    private static string Sample(string canvas) =>
        $"new Set(document.querySelector('{canvas}').getContext('2d').getImageData(0, 200, 400, 1).data).size";

    /// <summary>Clicks a place of the tile, which fills the height of the map, by shares from its west and north edge.</summary>
    private static async Task ClickMapAsync(VisitedPage page, double fromWest, double fromNorth)
    {
        var at = await page.Tab.EvaluateFunctionAsync<decimal[]>(
            """
            (west, north) => {
              const map = document.querySelector('.map');
              map.scrollIntoView({ block: 'center', behavior: 'instant' });
              const box = map.getBoundingClientRect();
              const across = map.clientHeight * Math.cos(46.5 * Math.PI / 180);
              return [box.left + box.width / 2 + (west - 0.5) * across, box.top + north * box.height];
            }
            """, fromWest, fromNorth);
        await page.Tab.Mouse.ClickAsync(at[0], at[1]);
    }
}
