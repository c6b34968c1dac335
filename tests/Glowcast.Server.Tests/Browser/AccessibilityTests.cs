using System.Text.Json;

namespace Glowcast.Server.Tests.Browser;

/// <summary>The page under the rules of axe-core, whose script is looked for where AXE_CORE says.</summary>
[Trait("Category", "Browser")]
public class AccessibilityTests(Service service, Chromium chromium)
{
    [TheoryNeeds<AxeCore>]
    [InlineData(1440, "light")]
    [InlineData(1440, "dark")]
    [InlineData(1440, "red")]
    [InlineData(390, "light")]
    public async Task Nothing_breaks_the_guidelines_for_everybody_s_access(int width, string look)
    {
        await using var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!, width);
        await page.UntilDrawnAsync();
        await page.Tab.SelectAsync("#look", look);
        await page.Tab.EvaluateExpressionAsync("document.querySelectorAll('details').forEach(details => { details.open = true; })");
        Assert.Equal("[]", await BrokenAsync(page));
    }

    /// <summary>What axe-core finds broken, as JSON.</summary>
    internal static async Task<string> BrokenAsync(VisitedPage page)
    {
        // Evaluated from here, since the page itself lets no foreign script in.
        await page.Tab.EvaluateExpressionAsync(await File.ReadAllTextAsync(AxeCore.Script!, TestContext.Current.CancellationToken));
        var broken = await page.Tab.EvaluateExpressionAsync<JsonElement>(
            """
            axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] })
              .then(found => found.violations.map(rule => `${rule.id}: ${rule.nodes.map(node => node.target).join()}`))
            """);
        return broken.GetRawText();
    }
}
