using PuppeteerSharp;

namespace Glowcast.Server.Tests.Browser;

/// <summary>The whole job without a mouse, and where the keys are always seen.</summary>
[Trait("Category", "Browser")]
public class KeyboardTests(Chromium chromium)
{
    private const int MostStops = 200;

    // WCAG 2.2, 2.4.7; an outline of 2 CSS pixels all round is what 2.4.13 asks for, which is more than AA.
    private const string Unseen =
        """
        () => {
          const stop = document.activeElement;
          const { outlineStyle, outlineWidth, outlineColor } = getComputedStyle(stop);
          const box = stop.getBoundingClientRect();
          const isSeen = outlineStyle === 'solid' && parseFloat(outlineWidth) >= 2 && !/, 0\)$|transparent/.test(outlineColor) && box.width > 0 && box.height > 0
            && box.bottom > 0 && box.top < innerHeight;
          return isSeen || stop === document.body ? null : `${stop.tagName} ${stop.id} ${stop.textContent.slice(0, 30)}: ${outlineStyle} ${outlineWidth} ${outlineColor}`;
        }
        """;

    [FactNeeds<Chromium>]
    public async Task From_an_empty_folder_to_the_field_card_by_keys_alone()
    {
        await using var data = new DataOfATest();
        using var client = await data.StartAsync(options => options with { Grids = new Dictionary<string, Engine.Terrain.ElevationGrid>() });
        await using var page = await VisitedPage.OpenAsync(chromium, client.BaseAddress!);
        await page.UntilAsync("document.getElementById('progress').textContent.includes('Drop an elevation grid')");

        await TakeInAsync(page, await VisitedPage.FileAsync(data.Folder, "N46E007.hgt", MadeValley.Hgt()));

        // The map's middle first, then the ridge itself by its coordinates.
        await ToAsync(page, ".map");
        await page.Tab.Keyboard.PressAsync("Enter");
        Assert.Contains("46.5000° N, 7.5000° E", await page.TextAsync("#map [role=status]"), StringComparison.Ordinal);
        await ToAsync(page, "#map .buttons button:nth-child(3)");
        await page.Tab.Keyboard.PressAsync("Enter");
        await page.UntilAsync("document.getElementById('plan-lookout-longitudeDeg').value === '7.5'");

        // Two rows show the valley under the ridge too, which ends the light.
        await FillAsync(page, "#plan-set-rows", "2");
        await FillAsync(page, "#plan-set-repeats", "50");
        await ToAsync(page, "#plan summary");
        await page.Tab.Keyboard.PressAsync("Enter");
        await FillAsync(page, "#plan-lookout-longitudeDeg", "7.5825");
        await FillAsync(page, "#plan-span-fromDeg", "262");
        await FillAsync(page, "#plan-span-toDeg", "279");
        await FillAsync(page, "#plan-span-ridgeFromKm", "8");
        await ToAsync(page, "#plan form.fields details:nth-of-type(3) summary");
        await page.Tab.Keyboard.PressAsync("Enter");
        await FillAsync(page, "#plan-set-settleS", "60");
        // Month, day, year, as the browser of the tests writes dates.
        await ToAsync(page, "#plan-date");
        await page.Tab.Keyboard.TypeAsync("10202026");
        await ToAsync(page, "#plan form.fields button");
        await page.Tab.Keyboard.PressAsync("Enter");
        await page.UntilDrawnAsync();
        Assert.Equal("Tuesday, 20 October 2026", await page.TextAsync("#title"));
        Assert.Equal("It does not fit", await page.TextAsync("#verdict h2"));

        await ToAsync(page, "#ridge-panel .end.to");
        await page.Tab.Keyboard.PressAsync("ArrowLeft");
        await page.UntilAsync("document.getElementById('where').textContent.includes('bearings 262.0° to 278.0°')");
        await page.UntilDrawnAsync();
        await MoveAsync(page, "#minute");
        await MoveAsync(page, "#start");

        await ToAsync(page, "#remedies button");
        await page.Tab.Keyboard.PressAsync("Enter");
        await page.UntilAsync("['It fits', 'It is tight'].includes(document.querySelector('#verdict h2').textContent)");
        await page.UntilDrawnAsync();
        var exposures = await page.CountAsync("#set-panel .step");
        await ToAsync(page, "#bar button");
        await page.Tab.Keyboard.PressAsync("Enter");
        await page.UntilAsync("document.querySelector('#verdict h2').textContent === 'It does not fit'");
        await page.PressAsync("y", "Control");
        await page.UntilAsync("document.querySelector('#verdict h2').textContent !== 'It does not fit'");
        await page.UntilDrawnAsync();
        Assert.Equal(exposures, await page.CountAsync("#set-panel .step"));

        await FillAsync(page, "#keep-name", "By keys");
        await page.Tab.Keyboard.PressAsync("Enter");
        await page.UntilAsync("document.querySelectorAll('#kept li').length === 1");
        Assert.Contains("By keys", await client.GetStringAsync(new Uri("/api/plans", UriKind.Relative), TestContext.Current.CancellationToken), StringComparison.Ordinal);

        await page.Tab.Client.SendAsync("Page.setDownloadBehavior", new { behavior = "allow", downloadPath = data.Folder });
        await ToAsync(page, "#along button");
        await page.Tab.Keyboard.PressAsync("Enter");
        await page.UntilAsync("document.querySelector('#along [role=status]').textContent === 'Field card: saved.'");
        // A service without a demo says so with a 404, which browsers note.
        Assert.All(page.Complaints, complaint => Assert.Contains("404", complaint, StringComparison.Ordinal));
        await using var card = await OpenWhenThereAsync(Path.Combine(data.Folder, "glowcast-2026-10-20.html"));
        Assert.Contains("Tuesday 2026-10-20", await card.GetContentAsync(), StringComparison.Ordinal);
    }

    [TheoryNeeds<Chromium>]
    [InlineData(1280)]
    [InlineData(390)]
    public async Task Every_stop_of_the_tab_key_is_seen_and_all_that_a_mouse_reaches_is_one(int width)
    {
        await using var other = await Service.StartWithAsync(MadeValley.PlanTooLong());
        await using var page = await VisitedPage.OpenAsync(chromium, new Uri(other.Urls.Single()), width);
        await page.UntilDrawnAsync();
        await page.Tab.EvaluateExpressionAsync("document.querySelectorAll('details').forEach(details => { details.open = true; })");
        await page.Tab.EvaluateExpressionAsync("window.stops = new Set()");
        for (var i = 0; i < MostStops; i++)
        {
            await StepAsync(page);
            // A date has stops within itself, one after another.
            if (await page.Tab.EvaluateFunctionAsync<bool>(
                """
                () => {
                  const stop = document.activeElement;
                  const isRound = stop === document.body || (stop !== window.last && window.stops.has(stop));
                  window.stops.add(window.last = stop);
                  return isRound;
                }
                """)) break;
        }
        // Of radio buttons of one name the chosen one is the stop.
        Assert.Equal("", await page.Tab.EvaluateExpressionAsync<string>(
            """
            [...document.querySelectorAll('button, input, select, textarea, summary, [tabindex], a[href]')]
              .filter(stop => stop.checkVisibility() && !stop.disabled && (stop.type !== 'radio' || stop.checked) && !window.stops.has(stop))
              .map(stop => `${stop.tagName} ${stop.id} ${stop.textContent.slice(0, 30)}`).join('; ')
            """));
    }

    private static async Task TakeInAsync(VisitedPage page, string path)
    {
        await ToAsync(page, "#grid-file");
        var asked = page.Tab.WaitForFileChooserAsync();
        await page.Tab.Keyboard.PressAsync("Space");
        await (await asked).AcceptAsync(path);
        await page.UntilAsync("document.getElementById('grids').textContent.includes('taken in') && document.querySelectorAll('#grids input:checked').length === 1");
    }

    /// <summary>Goes on with the tab key until it stands on what a selector finds.</summary>
    private static async Task ToAsync(VisitedPage page, string selector)
    {
        for (var i = 0; i < MostStops; i++)
        {
            if (await page.Tab.EvaluateFunctionAsync<bool>("selector => document.activeElement === document.querySelector(selector)", selector)) return;
            await StepAsync(page);
        }
        Assert.Fail($"The tab key does not reach {selector}.");
    }

    private static async Task StepAsync(VisitedPage page)
    {
        await page.Tab.Keyboard.PressAsync("Tab");
        Assert.Null(await page.Tab.EvaluateFunctionAsync<string?>(Unseen));
    }

    private static async Task FillAsync(VisitedPage page, string selector, string text)
    {
        await ToAsync(page, selector);
        await page.PressAsync("a", "Control");
        await page.Tab.Keyboard.TypeAsync(text);
    }

    private static async Task MoveAsync(VisitedPage page, string slider)
    {
        var before = await page.TextAsync($"{slider}-text");
        await ToAsync(page, slider);
        await page.Tab.Keyboard.PressAsync("ArrowRight");
        Assert.NotEqual(before, await page.TextAsync($"{slider}-text"));
    }

    private async Task<IPage> OpenWhenThereAsync(string path)
    {
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        stop.CancelAfter(TimeSpan.FromMinutes(1));
        while (!File.Exists(path)) await Task.Delay(50, stop.Token);
        var card = await chromium.OpenAsync();
        await card.GoToAsync(new Uri(path).AbsoluteUri);
        return card;
    }
}
