using System.Text.Json;

namespace Glowcast.Server.Tests.Browser;

[Trait("Category", "Browser")]
public class InstallTests(Service service, Chromium chromium)
{
    [FactNeeds<Chromium>]
    public async Task The_browser_finds_nothing_in_the_way_of_installing_the_page()
    {
        await using var page = await chromium.OpenKnownAsync();
        await page.GoToAsync(service.Client.BaseAddress!.ToString());
        var manifest = await page.Client.SendAsync<JsonElement>("Page.getAppManifest");
        Assert.EndsWith("/app.webmanifest", manifest.GetProperty("url").GetString(), StringComparison.Ordinal);
        Assert.Equal("[]", manifest.GetProperty("errors").GetRawText());
        var found = await page.Client.SendAsync<JsonElement>("Page.getInstallabilityErrors");
        Assert.Equal("[]", found.GetProperty("installabilityErrors").GetRawText());
    }
}
