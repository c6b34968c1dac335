namespace Glowcast.Server.Tests.Browser;

/// <summary>The season: begun, followed, stopped, and a day of it picked.</summary>
[Trait("Category", "Browser")]
public class SeasonTests(Service service, Chromium chromium)
{
    [FactNeeds<Chromium>]
    public async Task The_season_offers_days_with_reasons_and_one_that_is_picked_moves_everything()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!);
        await page.UntilDrawnAsync();
        await UntilAsync(page, "2026-11-09");
        await page.Tab.ClickAsync("#season button[type=submit]");
        await page.UntilAsync("document.querySelectorAll('#season li').length > 0");
        Assert.Contains("of 21 days have a window", await page.TextAsync("#season [role=status]"), StringComparison.Ordinal);
        Assert.True(await page.CountAsync("#season .day") > 0);
        Assert.NotEqual("", await page.TextAsync("#season li .quiet"));

        var (minute, start, card) = (await page.TextAsync("#minute-text"), await page.TextAsync("#start-text"), page.Tab.Url);
        await page.Tab.FocusAsync("#season .ribbon");
        await page.Tab.Keyboard.PressAsync("ArrowRight");
        await page.Tab.Keyboard.PressAsync("Enter");
        await page.UntilAsync("document.getElementById('title').textContent === 'Wednesday, 21 October 2026'");
        await page.UntilDrawnAsync();
        // A day later the sun stands lower and the light comes later.
        Assert.NotEqual(start, await page.TextAsync("#start-text"));
        Assert.Equal("2026-10-21", await page.Tab.EvaluateExpressionAsync<string>("document.getElementById('plan-date').value"));
        await page.UntilAsync($"location.href !== '{card}'");
        Assert.Matches("^[0-9]{2}:[0-9]{2}$", minute);

        // A click on the list does the same.
        var best = await page.TextAsync("#season li button");
        await page.Tab.ClickAsync("#season li button");
        await page.UntilAsync($"document.getElementById('title').textContent.includes('{best.Split(' ')[1]} ')");
        Assert.Empty(page.Complaints);
    }

    [FactNeeds<Chromium>]
    public async Task A_long_search_tells_how_far_it_is_and_stops_when_told_to()
    {
        await using var data = new DataOfATest();
        using var client = await data.StartAsync(options => options with { DemoPlan = System.Text.Json.JsonSerializer.SerializeToElement(MadeValley.Plan()) });
        await using var page = await VisitedPage.OpenAsync(chromium, client.BaseAddress!);
        await page.UntilDrawnAsync();
        await UntilAsync(page, "2027-10-19");
        await page.Tab.ClickAsync("#season button[type=submit]");
        await page.UntilAsync("/Looking through the days: [0-9]+ %/.test(document.querySelector('#season [role=status]').textContent)");
        await page.Tab.FocusAsync("#season button[type=button]");
        await page.Tab.Keyboard.PressAsync("Enter");
        await page.UntilAsync("document.querySelector('#season [role=status]').textContent === 'Stopped.'");
        Assert.Equal(0, await page.CountAsync("#season li"));
        Assert.True(await page.Tab.EvaluateExpressionAsync<bool>("document.querySelector('#season button[type=button]').hidden && document.activeElement.type === 'submit'"));
        Assert.Contains("\"state\":\"cancelled\"", await client.GetStringAsync(new Uri("/api/jobs", UriKind.Relative), TestContext.Current.CancellationToken), StringComparison.Ordinal);

        // And it can be begun again.
        await UntilAsync(page, "2026-10-22");
        await page.Tab.ClickAsync("#season button[type=submit]");
        await page.UntilAsync("document.querySelector('#season [role=status]').textContent.includes('of 3 days have a window')");
    }

    private static Task UntilAsync(VisitedPage page, string date) =>
        page.Tab.EvaluateFunctionAsync("date => { document.getElementById('season-to').value = date; }", date);
}
