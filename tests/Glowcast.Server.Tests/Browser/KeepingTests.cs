using System.Text.Json;
using PuppeteerSharp;

namespace Glowcast.Server.Tests.Browser;

/// <summary>What outlasts a visit: the link, the kept plans, and the page itself where nobody answers.</summary>
[Trait("Category", "Browser")]
public class KeepingTests(Service service, Chromium chromium)
{
    [FactNeeds<Chromium>]
    public async Task The_address_is_a_link_that_restores_everything()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!);
        await page.UntilDrawnAsync();
        await page.TypeAsync("#plan-lens-focalLengthMm", "200");
        await page.Tab.ClickAsync("#plan form.fields button");
        await page.UntilAsync("document.getElementById('set-facts').textContent.includes('6.9° ×')");
        await page.Tab.ClickAsync("#latest");
        await page.SlideAsync("#minute", 600);
        await page.UntilAsync("location.hash.length > 100");
        await page.RestAsync();
        var (start, minute, link) = (await page.TextAsync("#start-text"), await page.TextAsync("#minute-text"), page.Tab.Url);

        await using var again = await VisitedPage.OpenAsync(chromium, new Uri(link));
        await again.UntilDrawnAsync();
        Assert.Equal("200", await again.Tab.EvaluateExpressionAsync<string>("document.getElementById('plan-lens-focalLengthMm').value"));
        Assert.Equal(start, await again.TextAsync("#start-text"));
        Assert.Equal(minute, await again.TextAsync("#minute-text"));
    }

    [FactNeeds<Chromium>]
    public async Task A_kept_plan_opens_again_with_its_forecast_where_no_network_is()
    {
        // With documents of its own: other tests keep theirs at the service of all.
        await using var data = new DataOfATest();
        await using var page = await OpenDemoAsync(data);
        var exposures = await page.TextAsync("#stair-text");
        await page.TypeAsync("#keep-name", "October ridge");
        await page.Tab.Keyboard.PressAsync("Enter");
        await page.UntilAsync("document.querySelectorAll('#kept li').length === 1");
        await page.TypeAsync("#plan-set-repeats", "2");
        await page.Tab.ClickAsync("#plan form.fields button");
        await page.UntilAsync("document.getElementById('set-facts').textContent.includes('for 3 sets')");
        await page.Tab.EvaluateExpressionAsync("navigator.serviceWorker.ready.then(() => true)");
        await page.UntilAsync("navigator.serviceWorker.controller");

        await page.Tab.SetOfflineModeAsync(true);
        await page.Tab.ReloadAsync();
        await page.UntilDrawnAsync();
        Assert.Contains("No service answers", await page.TextAsync("#offline"), StringComparison.Ordinal);
        await page.Tab.ClickAsync("#kept li button");
        await page.UntilAsync("!document.getElementById('set-facts').textContent.includes('for 3 sets')");
        Assert.Equal(exposures, await page.TextAsync("#stair-text"));
        Assert.Equal("It fits", await page.TextAsync("#verdict h2"));
        Assert.True((await page.LookAsync("#ridge-panel canvas")).Colours > 100);

        // Another plan cannot be worked out here, and that is said.
        await page.TypeAsync("#plan-set-repeats", "1");
        await page.Tab.ClickAsync("#plan form.fields button");
        await page.UntilAsync("document.getElementById('problem').textContent.includes('does not answer')");
    }

    [FactNeeds<Chromium>]
    public async Task A_lookout_and_gear_are_kept_by_themselves_and_laid_into_another_plan_on_another_day()
    {
        await using var data = new DataOfATest();
        await using (var page = await OpenDemoAsync(data))
        {
            await KeepAsync(page, "lookouts", "East ridge");
            await KeepAsync(page, "gear", "Long lens");
        }

        // The service begins anew, and another visitor comes.
        await using var again = await OpenDemoAsync(data);
        await again.UntilAsync("document.querySelectorAll('#kept li').length === 2");
        await again.TypeAsync("#plan-lens-focalLengthMm", "200");
        await again.Tab.ClickAsync("#plan summary");
        await again.TypeAsync("#plan-lookout-eyeHeightM", "30");
        await again.Tab.ClickAsync("#plan form.fields button");
        await again.UntilAsync("document.getElementById('set-facts').textContent.includes('6.9° ×') && document.getElementById('where').textContent.includes('30 m')");
        await again.UntilDrawnAsync();

        await again.Tab.ClickAsync("#kept button[aria-label='Use the gear Long lens']");
        await again.UntilAsync("document.getElementById('plan-lens-focalLengthMm').value === '135' && document.getElementById('set-facts').textContent.includes('10.2° ×')");
        Assert.Equal("30", await ValueAsync(again, "plan-lookout-eyeHeightM"));
        await again.UntilDrawnAsync();
        await again.Tab.ClickAsync("#kept button[aria-label='Use the lookout East ridge']");
        await again.UntilAsync("!document.getElementById('where').textContent.includes('30 m')");
        Assert.Equal("135", await ValueAsync(again, "plan-lens-focalLengthMm"));
        await again.UntilDrawnAsync();

        await again.Tab.ClickAsync("#kept button[aria-label='Forget the gear Long lens']");
        await again.UntilAsync("document.querySelectorAll('#kept li').length === 1");
        Assert.Empty(again.Complaints);
    }

    [FactNeeds<Chromium>]
    public async Task What_the_service_does_not_keep_is_said_with_the_reason()
    {
        await using var bare = await Service.StartWithAsync(null);
        await using var page = await VisitedPage.OpenAsync(chromium, new Uri(bare.Urls.Single()));
        await page.UntilAsync("document.getElementById('plan-text').value !== ''");
        await page.Tab.EvaluateFunctionAsync("text => { document.getElementById('plan-text').value = text; }", MadeValley.Plan().ToJsonString());
        await page.Tab.ClickAsync("#plan form.whole button");
        await page.UntilDrawnAsync();
        await bare.StopAsync(TestContext.Current.CancellationToken);
        await page.Tab.SelectAsync("#keep-kind", "gear");
        await page.TypeAsync("#keep-name", "Long lens");
        await page.Tab.Keyboard.PressAsync("Enter");
        await page.UntilAsync("document.querySelector('#kept [role=status]').textContent !== ''");
        Assert.Equal("Long lens: not kept. The service does not answer. Is it still running?", await page.TextAsync("#kept [role=status]"));
    }

    [FactNeeds<Chromium>]
    public async Task Units_and_the_red_page_are_remembered()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!);
        await page.UntilDrawnAsync();
        await page.Tab.SelectAsync("#units", "imperial");
        await page.Tab.SelectAsync("#look", "red");
        Assert.Contains("the eye at 4", await page.TextAsync("#where"), StringComparison.Ordinal);
        Assert.Contains(" ft", await page.TextAsync("#where"), StringComparison.Ordinal);
        await page.Tab.ReloadAsync();
        await page.UntilDrawnAsync();
        Assert.Contains(" ft", await page.TextAsync("#where"), StringComparison.Ordinal);
        Assert.Contains(" in at 300 ppi", await page.TextAsync("#set-facts"), StringComparison.Ordinal);

        // Red light alone reaches the eye.
        var shot = await page.Tab.ScreenshotDataAsync(new ScreenshotOptions { Type = ScreenshotType.Png });
        Assert.Equal(0, await page.Tab.EvaluateFunctionAsync<int>(
            """
            async base64 => {
              const bitmap = await createImageBitmap(new Blob([Uint8Array.from(atob(base64), c => c.charCodeAt(0))]));
              const canvas = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d');
              canvas.drawImage(bitmap, 0, 0);
              const { data } = canvas.getImageData(0, 0, bitmap.width, bitmap.height);
              let most = 0;
              for (let i = 0; i < data.length; i += 4) most = Math.max(most, data[i + 1], data[i + 2]);
              return most;
            }
            """, Convert.ToBase64String(shot)));
    }

    private async Task<VisitedPage> OpenDemoAsync(DataOfATest data)
    {
        using var client = await data.StartAsync(options => options with { DemoPlan = JsonSerializer.SerializeToElement(MadeValley.Plan()) });
        var page = await VisitedPage.OpenAsync(chromium, client.BaseAddress!);
        await page.UntilDrawnAsync();
        return page;
    }

    private static async Task KeepAsync(VisitedPage page, string kind, string name)
    {
        await page.Tab.SelectAsync("#keep-kind", kind);
        await page.TypeAsync("#keep-name", name);
        await page.Tab.Keyboard.PressAsync("Enter");
        await page.UntilAsync($"document.querySelector('#kept [role=status]').textContent === '{name}: kept.' && document.querySelector('#kept ul').textContent.includes('{name}')");
    }

    private static Task<string> ValueAsync(VisitedPage page, string id) => page.Tab.EvaluateExpressionAsync<string>($"document.getElementById('{id}').value");
}
