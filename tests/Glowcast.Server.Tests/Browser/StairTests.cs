namespace Glowcast.Server.Tests.Browser;

/// <summary>The stair of exposures and the span, moved by hand, and what was done undone again.</summary>
[Trait("Category", "Browser")]
public class StairTests(Service service, Chromium chromium)
{
    [FactNeeds<Chromium>]
    public async Task Dragging_the_stair_past_the_light_changes_the_verdict_and_undo_brings_it_back()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!);
        await page.UntilDrawnAsync();
        var before = await page.TextAsync("#start-text");

        await page.DragAsync("#light-panel .grip", 0, 500);
        Assert.Equal("Not from this start", await page.TextAsync("#verdict h2"));
        Assert.True(await page.CountAsync("#set-panel .step.missing") > 0);
        Assert.Contains("the sun has reached the valley", await page.TextAsync("#stair-text"), StringComparison.Ordinal);
        Assert.NotEqual(before, await page.TextAsync("#start-text"));

        await page.PressAsync("z", "Control");
        await page.UntilAsync($"document.getElementById('start-text').textContent === '{before}'");
        Assert.Equal("It fits", await page.TextAsync("#verdict h2"));
        await page.PressAsync("y", "Control");
        await page.UntilAsync("document.querySelector('#verdict h2').textContent === 'Not from this start'");
        Assert.Empty(page.Complaints);
    }

    [FactNeeds<Chromium>]
    public async Task A_finger_drags_the_stair_of_the_enlarged_set()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!, 390, 844, isTouch: true);
        await page.UntilDrawnAsync();
        var before = await page.TextAsync("#start-text");
        await page.TouchAsync("#set-panel .grip", 0, 60);
        Assert.NotEqual(before, await page.TextAsync("#start-text"));
    }

    [FactNeeds<Chromium>]
    public async Task Pulling_an_end_of_the_span_or_turning_it_by_keys_works_out_the_narrower_one()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!);
        await page.UntilDrawnAsync();

        // 16° from 262° on; a quarter of the picture is 4°.
        await page.DragAsync("#ridge-panel .end.from", await page.Tab.EvaluateExpressionAsync<double>("document.querySelector('.view').clientWidth / 4"), 0);
        await page.UntilAsync("document.getElementById('where').textContent.includes('bearings 266.0° to 278.0°')");
        await page.UntilDrawnAsync();

        await page.Tab.FocusAsync("#ridge-panel .end.to");
        await page.Tab.Keyboard.PressAsync("ArrowLeft");
        await page.Tab.Keyboard.PressAsync("ArrowLeft");
        await page.UntilAsync("document.getElementById('where').textContent.includes('bearings 266.0° to 276.0°')");
        Assert.Empty(page.Complaints);
    }

    [FactNeeds<Chromium>]
    public async Task A_remedy_is_tried_by_one_click_and_undone_by_another()
    {
        await using var other = await Service.StartWithAsync(MadeValley.PlanTooLong());
        await using var page = await VisitedPage.OpenAsync(chromium, new Uri(other.Urls.Single()));
        await page.UntilDrawnAsync();
        Assert.Equal("It does not fit", await page.TextAsync("#verdict h2"));

        await page.Tab.ClickAsync("#remedies button");
        await page.UntilAsync("['It fits', 'It is tight'].includes(document.querySelector('#verdict h2').textContent)");
        await page.UntilDrawnAsync();
        await page.Tab.ClickAsync("#bar button");
        await page.UntilAsync("document.querySelector('#verdict h2').textContent === 'It does not fit'");
    }

    [FactNeeds<Chromium>]
    public async Task Another_picture_of_the_day_is_planned_by_one_click()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!);
        await page.UntilDrawnAsync();
        Assert.Contains("lit ridge over dark ground", await page.TextAsync("#pictures"), StringComparison.Ordinal);
        Assert.Contains("ridge in twilight", await page.TextAsync("#pictures"), StringComparison.Ordinal);
        var start = await page.TextAsync("#start-text");

        await page.Tab.EvaluateExpressionAsync<bool>("[...document.querySelectorAll('#pictures li')].find(li => li.textContent.includes('twilight')).querySelector('button').click() ?? true");
        await page.UntilAsync("[...document.querySelectorAll('#pictures li')].some(li => li.textContent.includes('twilight') && li.textContent.includes('(planned)')) && !document.body.classList.contains('working')");
        await page.UntilDrawnAsync();
        Assert.NotEqual(start, await page.TextAsync("#start-text"));
        Assert.Contains("6° below the horizontal", await page.TextAsync("#windows"), StringComparison.Ordinal);
        Assert.Empty(page.Complaints);
    }
}
