using System.Text.Json.Nodes;

namespace Glowcast.Server.Tests.Browser;

/// <summary>The page in a real browser, on the made valley.</summary>
[Trait("Category", "Browser")]
public class PageTests(Service service, Chromium chromium)
{
    private Uri Address => service.Client.BaseAddress!;

    [FactNeeds<Chromium>]
    public async Task Headings_are_of_one_face_and_the_way_to_the_other_page_stands_with_what_else_the_head_offers()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!, 1440);
        await page.UntilDrawnAsync();
        const string faces = "[...new Set([...document.querySelectorAll('h1, h2, h3')].map(heading => { const { fontFamily, fontWeight } = getComputedStyle(heading); return `${fontWeight} ${fontFamily}`; }))]";
        var face = Assert.Single(await page.Tab.EvaluateExpressionAsync<string[]>(faces));
        var gap = await page.Tab.EvaluateExpressionAsync<double>("document.getElementById('bar').getBoundingClientRect().left - document.querySelector('nav a').getBoundingClientRect().right");
        Assert.InRange(gap, 8, 32);
        await page.Tab.GoToAsync(new Uri(service.Client.BaseAddress!, "take.html").ToString());
        Assert.Equal([face], await page.Tab.EvaluateExpressionAsync<string[]>(faces));
    }

    [FactNeeds<Chromium>]
    public async Task It_shows_the_ridge_the_light_and_the_set_of_the_demo_and_asks_nobody_else()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, Address);
        await page.UntilDrawnAsync();
        var answer = await service.PostPlanAsync(MadeValley.Plan()).JsonAsync();

        Assert.Equal("It fits", await page.TextAsync("#verdict h2"));
        Assert.True((await page.LookAsync("#ridge-panel canvas")).Colours > 100);
        Assert.True((await page.LookAsync("#light-panel canvas")).Colours > 2);
        var exposures = answer["set"]!["exposures"]!.AsArray().Count;
        Assert.Equal(exposures, await page.CountAsync("#set-panel .step"));
        Assert.Equal(exposures, await page.CountAsync("#light-panel .step"));
        Assert.Equal(0, await page.CountAsync(".step.missing"));
        Assert.Equal(answer["windows"]!.AsArray().Count, await page.CountAsync("#light-panel .window"));
        Assert.Contains(LocalTime(answer["fit"]!["earliestStartLocal"]!), await page.TextAsync("#verdict"), StringComparison.Ordinal);
        Assert.Contains($"All {exposures} exposures have their light", await page.TextAsync("#stair-text"), StringComparison.Ordinal);
        Assert.True(await page.CountAsync("#table tbody tr") > 5);
        Assert.Empty(page.Complaints);
        Assert.All(page.Asked, address => Assert.Equal(Address.Host, address.Host));
    }

    [FactNeeds<Chromium>]
    public async Task The_picture_follows_the_minute_by_slider_keyboard_and_chart()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, Address);
        await page.UntilDrawnAsync();
        var window = await page.TextAsync("#minute-text");
        // Below the sky, which has tones of its own.
        var lit = await page.LookAsync("#ridge-panel canvas", from: 0.6);

        await page.SlideAsync("#minute", 0);
        Assert.True((await page.LookAsync("#ridge-panel canvas", from: 0.6)).Brightness < lit.Brightness - 10);
        Assert.Contains("0 % of it lit", await page.Tab.EvaluateExpressionAsync<string>("document.getElementById('ridge-panel').getAttribute('aria-label')"), StringComparison.Ordinal);

        var dawn = await page.TextAsync("#minute-text");
        await page.Tab.FocusAsync("#minute");
        await page.Tab.Keyboard.PressAsync("ArrowRight");
        Assert.NotEqual(dawn, await page.TextAsync("#minute-text"));

        await page.Tab.ClickAsync("#light-panel");
        Assert.Contains(await page.TextAsync("#minute-text"), await page.Tab.EvaluateExpressionAsync<string>("document.getElementById('ridge-panel').getAttribute('aria-label')"), StringComparison.Ordinal);
        Assert.NotEqual(dawn, await page.TextAsync("#minute-text"));
        Assert.Matches("^[0-9]{2}:[0-9]{2}$", window);
        Assert.Empty(page.Complaints);
    }

    [FactNeeds<Chromium>]
    public async Task A_start_that_is_too_late_marks_the_exposures_that_miss_their_light()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, Address);
        await page.UntilDrawnAsync();

        await page.Tab.ClickAsync("#latest");
        Assert.Equal(0, await page.CountAsync("#set-panel .step.missing"));
        await page.Tab.FocusAsync("#start");
        await page.Tab.Keyboard.PressAsync("ArrowRight");
        Assert.Equal(1, await page.CountAsync("#set-panel .step.missing"));
        // By shape too, not by colour alone.
        Assert.Equal(1, await page.CountAsync("#set-panel .cross"));
        Assert.Contains("1 of", await page.TextAsync("#stair-text"), StringComparison.Ordinal);
        Assert.Contains("the sun has reached the valley", await page.TextAsync("#stair-text"), StringComparison.Ordinal);
    }

    [FactNeeds<Chromium>]
    public async Task Changing_the_plan_works_it_out_anew_and_faults_stand_beside_their_fields()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, Address);
        await page.UntilDrawnAsync();
        var before = await page.CountAsync("#set-panel .step");

        await page.TypeAsync("#plan-lens-focalLengthMm", "long");
        await page.TypeAsync("#plan-set-overlap", "1.5");
        await page.Tab.ClickAsync("#plan form.fields button");
        await page.UntilAsync("!document.getElementById('problem').hidden");
        Assert.Contains("Must be a number", await page.TextAsync("#plan-lens-focalLengthMm-fault"), StringComparison.Ordinal);
        Assert.Contains("from 0 to 0.95", await page.TextAsync("#plan-set-overlap-fault"), StringComparison.Ordinal);
        Assert.Contains("2 fields are wrong", await page.TextAsync("#problem"), StringComparison.Ordinal);
        Assert.Equal(before, await page.CountAsync("#set-panel .step"));

        await page.TypeAsync("#plan-lens-focalLengthMm", "200");
        await page.TypeAsync("#plan-set-overlap", "0.4");
        await page.Tab.ClickAsync("#plan form.fields button");
        await page.UntilAsync($"document.querySelectorAll('#set-panel .step').length > {before} && document.getElementById('problem').hidden");
        Assert.Equal("", await page.TextAsync("#plan-lens-focalLengthMm-fault"));
    }

    [TheoryNeeds<Chromium>]
    [InlineData(390, 844)]
    [InlineData(1024, 768)]
    [InlineData(1440, 900)]
    public async Task Nothing_is_wider_than_the_screen(int width, int height)
    {
        await using var page = await VisitedPage.OpenAsync(chromium, Address, width, height);
        await page.UntilDrawnAsync();
        Assert.Equal(0, await page.Tab.EvaluateExpressionAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth"));
    }

    [FactNeeds<Chromium>]
    public async Task A_set_that_is_too_long_says_what_would_help_and_which_frame_breaks_it()
    {
        await using var other = await Service.StartWithAsync(MadeValley.PlanTooLong());
        await using var page = await VisitedPage.OpenAsync(chromium, new Uri(other.Urls.Single()));
        await page.UntilDrawnAsync();

        Assert.Equal("It does not fit", await page.TextAsync("#verdict h2"));
        Assert.True(await page.CountAsync("#set-panel .step.missing") > 0);
        Assert.NotEqual(0, await page.CountAsync("#remedies li"));
    }

    [FactNeeds<Chromium>]
    public async Task A_day_without_light_and_a_plan_with_faults_are_readable_text()
    {
        var dark = MadeValley.Plan();
        dark["span"]!["ridgeFromKm"] = 60;
        await using var without = await Service.StartWithAsync(dark);
        await using var first = await VisitedPage.OpenAsync(chromium, new Uri(without.Urls.Single()));
        await first.UntilAsync("!document.getElementById('verdict').hidden");
        Assert.Contains("No light", await first.TextAsync("#verdict"), StringComparison.Ordinal);
        Assert.Contains("there is no ridge to light", await first.TextAsync("#verdict"), StringComparison.Ordinal);
        Assert.Empty(first.Complaints);

        var faulty = MadeValley.Plan();
        faulty["span"]!["toDeg"] = 262;
        faulty["grids"] = new JsonArray("elsewhere.hgt");
        await using var wrong = await Service.StartWithAsync(faulty);
        await using var second = await VisitedPage.OpenAsync(chromium, new Uri(wrong.Urls.Single()));
        await second.UntilAsync("!document.getElementById('problem').hidden");
        var problem = await second.TextAsync("#problem");
        Assert.Contains("Must differ from fromDeg", await second.TextAsync("#plan-span-toDeg-fault"), StringComparison.Ordinal);
        Assert.Contains("elsewhere.hgt", problem, StringComparison.Ordinal);
        // The plan is there to be mended.
        Assert.Contains("elsewhere.hgt", await second.Tab.EvaluateExpressionAsync<string>("document.getElementById('plan-text').value"), StringComparison.Ordinal);
    }

    [FactNeeds<Chromium>]
    public async Task Without_a_demo_a_plan_can_be_written()
    {
        await using var bare = await Service.StartWithAsync(null);
        await using var page = await VisitedPage.OpenAsync(chromium, new Uri(bare.Urls.Single()));
        await page.UntilAsync("document.getElementById('plan-text').value !== ''");
        Assert.Contains(MadeValley.GridId, await page.Tab.EvaluateExpressionAsync<string>("document.getElementById('plan-text').value"), StringComparison.Ordinal);

        await page.Tab.EvaluateFunctionAsync("text => { document.getElementById('plan-text').value = text; }", MadeValley.Plan().ToJsonString());
        await page.Tab.ClickAsync("#plan form.whole button");
        await page.UntilDrawnAsync();
        Assert.Equal("It fits", await page.TextAsync("#verdict h2"));
    }

    private static string LocalTime(JsonNode local) => local.GetValue<string>().Substring("2026-10-20T".Length, "08:39:19".Length);
}
