using System.Text.Json;

namespace Glowcast.Server.Tests.Browser;

/// <summary>The page of takes in a real browser, with picture files that exiftool wrote.</summary>
[Trait("Category", "Browser")]
public class TakePageTests(Service service, Chromium chromium, MadeFrames made) : IClassFixture<MadeFrames>
{
    private Uri Address => new(service.Client.BaseAddress!, "take.html");

    [FactNeeds<BrowserAndFrames>]
    public async Task A_folder_is_sorted_into_sets_with_reasons_and_nothing_else_is_asked()
    {
        await using var page = await SortedAsync();
        Assert.Equal("2 sets: 0 whole, 0 not whole, 2 uncertain", await page.TextAsync("#sorted h2"));
        Assert.Equal((20, 18, 4), (await page.CountAsync(".shot"), await page.CountAsync(".shot.in"), await page.CountAsync(".brace")));
        Assert.Contains("Begins after the marker frame IMG_0001.jpg", await page.TextAsync(".set-head ul"), StringComparison.Ordinal);
        Assert.True((await page.LookAsync(".shot.in canvas")).Colours > 20);
        Assert.Empty(page.Complaints);
        Assert.All(page.Asked, address => Assert.Equal(Address.Host, address.Host));
    }

    [FactNeeds<BrowserAndFrames>]
    public async Task A_border_moves_by_key_and_by_drag_and_is_held_to_when_sorted_again()
    {
        await using var page = await SortedAsync();
        await page.Tab.FocusAsync("[data-bar='1 first']");
        await page.Tab.Keyboard.PressAsync("ArrowRight");
        await page.Tab.Keyboard.PressAsync("ArrowRight");
        Assert.Equal("IMG_0004.jpg", await ValueAsync("1 first"));
        Assert.Contains("Set 1 has 7 frames", await page.TextAsync("#said"), StringComparison.Ordinal);

        await page.Tab.EvaluateExpressionAsync("document.querySelector(\"[data-bar='2 last']\").scrollIntoView({ block: 'center' })");
        var (bar, to) = (await MiddleAsync("[data-bar='2 last']"), await MiddleAsync("[data-at='16']"));
        await page.Tab.Mouse.MoveAsync(bar[0], bar[1]);
        await page.Tab.Mouse.DownAsync();
        await page.Tab.Mouse.MoveAsync(to[0], to[1], new PuppeteerSharp.Input.MoveOptions { Steps = 4 });
        await page.Tab.Mouse.UpAsync();
        await page.UntilAsync("document.querySelector(\"[data-bar='2 last']\").getAttribute('aria-valuetext') === 'IMG_0017.jpg'");

        await page.Tab.ClickAsync("#sort");
        await page.UntilAsync("document.getElementById('sort').textContent === 'Sort again' && document.getElementById('stop').hidden");
        Assert.Equal(("IMG_0004.jpg", "IMG_0017.jpg"), (await ValueAsync("1 first"), await ValueAsync("2 last")));
        Assert.Contains("You put its borders there.", await page.TextAsync(".set-head ul"), StringComparison.Ordinal);
        Assert.Empty(page.Complaints);

        Task<string> ValueAsync(string name) => page.Tab.EvaluateFunctionAsync<string>("name => document.querySelector(`[data-bar='${name}']`).getAttribute('aria-valuetext')", name);
        Task<decimal[]> MiddleAsync(string selector) => page.Tab.EvaluateFunctionAsync<decimal[]>(
            "selector => { const box = document.querySelector(selector).getBoundingClientRect(); return [box.x + (box.width / 2), box.y + (box.height / 2)]; }", selector);
    }

    [FactNeeds<BrowserAndFrames>]
    public async Task Frames_are_gone_through_by_key_taken_out_and_made_the_beginning_of_a_set()
    {
        await using var page = await SortedAsync();
        await page.Tab.FocusAsync(".shot[tabindex='0']");
        for (var step = 0; step < 5; step++) await page.Tab.Keyboard.PressAsync("ArrowRight");
        await page.Tab.Keyboard.PressAsync("l");
        Assert.Equal(17, await page.CountAsync(".shot.in"));
        await page.Tab.Keyboard.PressAsync("ArrowRight");
        await page.Tab.Keyboard.PressAsync("s");
        Assert.Equal(6, await page.CountAsync(".brace"));
        Assert.Equal("6", await page.Tab.EvaluateExpressionAsync<string>("document.activeElement.dataset.at"));
    }

    [FactNeeds<BrowserAndFrames>]
    public async Task Lists_are_handed_out()
    {
        await using var page = await SortedAsync();
        var lists = await page.Tab.EvaluateExpressionAsync<string[]>(
            """
            (async () => {
              const made = [];
              const real = URL.createObjectURL;
              URL.createObjectURL = blob => { made.push(blob); return real(blob); };
              HTMLAnchorElement.prototype.click = () => {};
              document.querySelectorAll('#lists button').forEach(button => button.click());
              return Promise.all(made.map(blob => blob.text()));
            })()
            """);
        Assert.StartsWith("# set 1\nIMG_0002.jpg\nIMG_0003.jpg\n", lists[0], StringComparison.Ordinal);
        Assert.Equal("IMG_0001.jpg,", lists[1].Split("\r\n")[1]);
        Assert.Equal("IMG_0012.jpg,2", lists[1].Split("\r\n")[12]);
        Assert.Equal(2, JsonDocument.Parse(lists[2]).RootElement.GetProperty("sets").GetArrayLength());
    }

    [FactNeeds<BrowserAndFrames>]
    public async Task A_plan_that_the_other_page_kept_is_offered_and_its_forecast_compared_with()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!);
        await page.UntilDrawnAsync();
        await page.Tab.GoToAsync(Address.ToString());
        await page.UntilAsync("document.querySelectorAll('#plan option').length === 2");
        await page.Tab.ClickAsync("#compare");
        await UploadAsync(page);
        Assert.Contains("No set of the take was shot on 2026-10-20", await page.TextAsync("#sorted"), StringComparison.Ordinal);
        Assert.Contains("Set 2 begins outside every window of light.", await page.TextAsync("#sorted"), StringComparison.Ordinal);
        Assert.Empty(page.Complaints);
    }

    [FactNeeds<Chromium>]
    public async Task Without_a_plan_there_is_no_forecast_to_ask_for_and_the_page_says_why()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, Address);
        await page.UntilAsync("document.querySelectorAll('#plan option').length === 1");
        Assert.Equal(2, await page.CountAsync("#ask :disabled[type=checkbox]"));
        Assert.Contains("work one out on the page of the light on the ridge", await SaidOfThemAsync(), StringComparison.Ordinal);

        await page.Tab.GoToAsync(service.Client.BaseAddress!.ToString());
        await page.UntilDrawnAsync();
        await page.Tab.GoToAsync(Address.ToString());
        await page.UntilAsync("document.querySelectorAll('#plan option').length === 2");
        Assert.Equal(0, await page.CountAsync("#ask :disabled[type=checkbox]"));
        Assert.Equal("", await SaidOfThemAsync());
        await page.Tab.ClickAsync("#compare");
        await page.Tab.SelectAsync("#plan", "none");
        Assert.Equal(2, await page.CountAsync("#ask :disabled[type=checkbox]"));
        Assert.Equal(0, await page.CountAsync("#ask :checked[type=checkbox]"));
        Assert.Contains("choose one above", await SaidOfThemAsync(), StringComparison.Ordinal);

        Task<string> SaidOfThemAsync() => page.Tab.EvaluateExpressionAsync<string>(
            "[...new Set(['compare', 'keep'].map(id => document.getElementById(document.getElementById(id).getAttribute('aria-describedby')).textContent))].join()");
    }

    [FactNeeds<BrowserAndFrames>]
    public async Task The_camera_s_clock_is_told_by_its_error_or_by_a_frame_and_faults_stand_beside_the_fields()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, Address);
        await page.Tab.ClickAsync("#clock summary");
        await page.TypeAsync("#take-clockErrorS", "60");
        await page.TypeAsync("#take-knownFrame-name", "IMG_0002.jpg");
        await page.TypeAsync("#take-knownFrame-shotAt", "noon");
        await page.Tab.ClickAsync("#clock summary");
        await (await page.Tab.QuerySelectorAsync("#folder")).UploadFileAsync(made.Folder);
        await page.UntilAsync("!document.getElementById('problem').hidden");
        Assert.Contains("Cannot stand beside knownFrame", await page.TextAsync("#take-clockErrorS-fault"), StringComparison.Ordinal);
        Assert.Contains("Must be an instant", await page.TextAsync("#take-knownFrame-shotAt-fault"), StringComparison.Ordinal);
        Assert.Equal("take-clockErrorS", await page.Tab.EvaluateExpressionAsync<string>("document.activeElement.id"));
        Assert.Equal(0, await page.CountAsync("#problem p"));

        await page.TypeAsync("#take-clockErrorS", "");
        await page.TypeAsync("#take-knownFrame-shotAt", "2026-02-14T12:00:00Z");
        await page.Tab.ClickAsync("#sort");
        await page.UntilAsync("!document.getElementById('lists').hidden");
        Assert.Equal(0, await page.CountAsync("[aria-invalid=true]"));
        var answer = await page.Tab.EvaluateExpressionAsync<string>(
            """
            new Promise(done => {
              URL.createObjectURL = blob => { blob.text().then(done); return '#'; };
              document.querySelector('#lists button:last-child').click();
            })
            """);
        Assert.Equal("2026-02-14T12:00:00.0Z", JsonDocument.Parse(answer).RootElement.GetProperty("sets")[0].GetProperty("start").GetString());
    }

    [FactNeeds<BrowserAndFrames>]
    public async Task Light_that_was_seen_is_told_by_the_lookout_s_clock()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!);
        await page.UntilDrawnAsync();
        await page.Tab.GoToAsync(Address.ToString());
        await page.UntilAsync("document.querySelectorAll('#plan option').length === 2");
        await page.Tab.ClickAsync("#compare");
        // The made frames have no light in them: it is put into the answer.
        await page.Tab.EvaluateExpressionAsync(
            """
            {
              const real = window.fetch;
              window.fetch = async (address, request) => {
                const response = await real(address, request);
                if (address !== '/api/takes') return response;
                const answer = await response.json();
                answer.compared.lightSeen = [{ change: 'firstLight', at: '2026-02-14T06:12:08.6Z', lateS: -12 }];
                return Response.json(answer);
              };
            }
            """);
        await UploadAsync(page);
        // Winter time of Zürich.
        Assert.Contains("First light seen at 07:12:09 local time, Europe/Zurich, 12 s before the forecast.", await page.TextAsync("#sorted"), StringComparison.Ordinal);
    }

    [FactNeeds<BrowserAndFrames>]
    public async Task What_the_service_refuses_is_said()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, Address);
        var folder = Directory.CreateTempSubdirectory("glowcast-no-take-").FullName;
        await File.WriteAllTextAsync(Path.Combine(folder, "notes.txt"), "no picture", TestContext.Current.CancellationToken);
        await (await page.Tab.QuerySelectorAsync("#folder")).UploadFileAsync(folder);
        await page.UntilAsync("!document.getElementById('problem').hidden");
        Directory.Delete(folder, recursive: true);
        Assert.Contains("There are no pictures in it", await page.TextAsync("#problem"), StringComparison.Ordinal);
    }

    [TheoryNeeds<AxeAndFrames>]
    [InlineData(1440, "light")]
    [InlineData(1440, "dark")]
    [InlineData(390, "light")]
    public async Task Nothing_breaks_the_guidelines_for_everybody_s_access(int width, string look)
    {
        await using var page = await SortedAsync(width);
        await page.Tab.EvaluateFunctionAsync("look => { document.documentElement.dataset.look = look; }", look);
        Assert.Equal("[]", await AccessibilityTests.BrokenAsync(page));
        Assert.True(await page.Tab.EvaluateExpressionAsync<bool>("document.documentElement.scrollWidth <= innerWidth"));
    }

    private async Task<VisitedPage> SortedAsync(int width = 1280)
    {
        var page = await VisitedPage.OpenAsync(chromium, Address, width);
        await UploadAsync(page);
        return page;
    }

    private async Task UploadAsync(VisitedPage page)
    {
        await (await page.Tab.QuerySelectorAsync("#folder")).UploadFileAsync(made.Folder);
        await page.UntilAsync("!document.getElementById('lists').hidden && document.getElementById('stop').hidden");
        await page.RestAsync();
    }
}
