using System.Text.Json.Nodes;

namespace Glowcast.Server.Tests.Browser;

/// <summary>What is drawn over the ridge picture, and the print of it on a wall.</summary>
[Trait("Category", "Browser")]
public class PictureTests(Service service, Chromium chromium)
{
    private const double PersonMm = 1750;

    [FactNeeds<Chromium>]
    public async Task Another_minute_is_painted_without_asking_the_service()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!);
        await page.UntilDrawnAsync();
        var (asked, before) = (page.Asked.Count, await page.LookAsync("#ridge-panel canvas"));
        foreach (var minute in (int[])[0, 200, 400]) await page.SlideAsync("#minute", minute);
        Assert.NotEqual(before, await page.LookAsync("#ridge-panel canvas"));
        await page.RestAsync();
        // The map may still load what it shows, and the browser itself looks at its icon again when the address changes.
        Assert.DoesNotContain(page.Asked.Skip(asked), address =>
            address.AbsolutePath.StartsWith("/api/", StringComparison.Ordinal) && !address.AbsolutePath.EndsWith("/hillshade", StringComparison.Ordinal));
    }

    [FactNeeds<Chromium>]
    public async Task Frames_of_one_set_and_the_clean_rectangle_are_laid_over_the_picture_when_asked_for()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!);
        await page.UntilDrawnAsync();
        var set = await SetAsync();
        Assert.Equal(0, await page.CountAsync("#ridge-panel .outline, #ridge-panel .clean"));
        await page.Tab.ClickAsync("#frames");
        Assert.Equal(set["framesPerSet"]!.GetValue<int>(), await page.CountAsync("#ridge-panel .outline"));
        Assert.Equal(set["framesPerSet"]!.GetValue<int>() - set["frames"]!.GetValue<int>(), await page.CountAsync("#ridge-panel .outline.spare"));
        // As wide on the picture's scale of degrees as its pixels are on the lens's.
        var degrees = double.RadiansToDegrees(set["cleanWidthPx"]!.GetValue<double>() / set["focalLengthPx"]!.GetValue<double>());
        var shown = await page.Tab.EvaluateExpressionAsync<double>("document.querySelector('#ridge-panel .clean').getAttribute('width') / (document.querySelector('.view').clientWidth / 16)");
        Assert.Equal(degrees, shown, 0.02);
    }

    [FactNeeds<Chromium>]
    public async Task The_print_hangs_on_the_wall_at_one_scale_with_the_person_beside_it_at_every_resolution()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!);
        await page.UntilDrawnAsync();
        foreach (var size in (await SetAsync())["print"]!["sizes"]!.AsArray())
        {
            await page.Tab.ClickAsync($"#print input[value='{size!["ppi"]}']");
            var px = await page.Tab.EvaluateExpressionAsync<double[]>(
                """
                (({ width, height }, person) => [width, height, person.height])(
                  document.querySelector('#print canvas').getBoundingClientRect(), document.querySelector('#print .person').getBoundingClientRect())
                """);
            Assert.Equal(size["widthMm"]!.GetValue<double>() / PersonMm, px[0] / px[2], 0.02);
            Assert.Equal(size["heightMm"]!.GetValue<double>() / PersonMm, px[1] / px[2], 0.02);
            Assert.Contains($"at {size["ppi"]} ppi", await page.TextAsync("#print .quiet"), StringComparison.Ordinal);
        }
        Assert.True((await page.LookAsync("#print canvas")).Colours > 50);
    }

    private async Task<JsonNode> SetAsync() => (await service.PostPlanAsync(MadeValley.Plan()).JsonAsync())["set"]!;
}
