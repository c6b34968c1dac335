using System.Globalization;
using System.Text.Json.Nodes;
using PuppeteerSharp;

namespace Glowcast.Server.Tests.Browser;

/// <summary>The page for those who hear it, measure in feet, or are made ill by what moves.</summary>
[Trait("Category", "Browser")]
public class EverybodyTests(Service service, Chromium chromium)
{
    [FactNeeds<Chromium>]
    public async Task The_table_says_in_words_what_the_engine_says_in_numbers()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!);
        await page.UntilDrawnAsync();
        var chart = (await service.PostPlanAsync(MadeValley.Plan(), "?pictures=true").JsonAsync())["chart"]!;
        await page.Tab.ClickAsync("#table summary");
        Assert.Equal("Light on the crest, most of each part of the span", await page.TextAsync("#table caption"));
        var rows = await page.Tab.EvaluateExpressionAsync<string[][]>("[...document.querySelectorAll('#table tbody tr')].map(row => [...row.children].map(cell => cell.textContent))");
        Assert.True(rows.Length > 5);
        Assert.Equal(rows.Length, await page.CountAsync("#table tbody th[scope=row]"));
        Assert.Equal(rows[0].Length, await page.CountAsync("#table thead th[scope=col]"));

        var start = DateTimeOffset.Parse(chart["start"]!.GetValue<string>(), CultureInfo.InvariantCulture);
        foreach (var row in rows)
        {
            // Summer time of Zürich.
            var seconds = (DateTimeOffset.Parse($"2026-10-20T{row[0]}:00+02:00", CultureInfo.InvariantCulture) - start).TotalSeconds;
            Assert.Equal($"{Math.Round(100 * RidgeLit(chart, seconds), MidpointRounding.AwayFromZero)} %", row[1]);
            Assert.Equal($"{Math.Round(100 * chart["valleyShare"]![(int)(seconds / 60)]!.GetValue<double>(), MidpointRounding.AwayFromZero)} %", row[2]);
            Assert.All(row[3..], cell => Assert.Contains(cell, (string[])["no ridge", "shade", "partly lit", "lit", "lit, valley too"]));
        }
        Assert.Contains(rows, row => row[3] == "shade");
        Assert.Contains(rows, row => row[3] is "lit" or "lit, valley too");
    }

    [FactNeeds<Chromium>]
    public async Task Feet_and_miles_are_shown_and_taken_while_the_plan_stays_metric()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!);
        await page.UntilDrawnAsync();
        await page.Tab.SelectAsync("#units", "imperial");
        await page.TypeAsync("#plan-conditions-deckTopM", "3000");
        await page.TypeAsync("#plan-conditions-visibilityKm", "50");
        await page.Tab.ClickAsync("#plan form.fields button");
        await page.UntilAsync("document.getElementById('cloud').textContent.includes('3000 ft')");
        await page.UntilDrawnAsync();
        var plan = JsonNode.Parse(await page.Tab.EvaluateExpressionAsync<string>("document.getElementById('plan-text').value"))!;
        // International foot 0.3048 m, statute mile 1.609344 km, both exact.
        Assert.Equal(914.4, plan["conditions"]!["deckTopM"]!.GetValue<double>(), 1e-9);
        Assert.Equal(80.4672, plan["conditions"]!["visibilityKm"]!.GetValue<double>(), 1e-9);
        Assert.DoesNotMatch("[0-9] k?m\\b", await page.TextAsync("#set-facts") + await page.TextAsync("#windows") + await page.TextAsync("#spoils") + await page.TextAsync("#cloud"));
        await page.Tab.SelectAsync("#units", "metric");
        Assert.Contains("914 m", await page.TextAsync("#cloud"), StringComparison.Ordinal);
    }

    [FactNeeds<Chromium>]
    public async Task Nothing_moves_by_itself_for_those_who_ask_for_that()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!);
        await page.UntilDrawnAsync();
        await page.Tab.EvaluateExpressionAsync("document.body.classList.add('working')");
        Assert.NotEqual(0, await MovingAsync(page));
        await page.Tab.EmulateMediaFeaturesAsync([new MediaFeatureValue { MediaFeature = MediaFeature.PrefersReducedMotion, Value = "reduce" }]);
        Assert.Equal(0, await MovingAsync(page));
    }

    private static Task<int> MovingAsync(VisitedPage page) => page.Tab.EvaluateExpressionAsync<int>(
        """
        [...document.querySelectorAll('*')].map(element => getComputedStyle(element)).filter(({ transitionDuration, animationName, scrollBehavior }) =>
          parseFloat(transitionDuration) > 0 || animationName !== 'none' || scrollBehavior === 'smooth').length
        """);

    /// <summary>The share of the columns with ridge that are lit, by the moments that the engine gives for each.</summary>
    private static double RidgeLit(JsonNode chart, double seconds)
    {
        var columns = chart["columnLitS"]!.AsArray().Zip(chart["hasRidge"]!.AsArray()).Where(column => column.Second!.GetValue<bool>()).ToList();
        return (double)columns.Count(column => column.First!.AsArray().Select(moment => moment!.GetValue<double>()).Chunk(2).Any(lit => lit[0] <= seconds && seconds < lit[1])) / columns.Count;
    }
}
