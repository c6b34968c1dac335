using System.Text;

namespace Glowcast.Server.Tests.Browser;

/// <summary>Soundings dropped on the page, decks and visibilities typed.</summary>
[Trait("Category", "Browser")]
public class WeatherTests(Service service, Chromium chromium)
{
    /// <summary>Invented, as archives list them: fog under an inversion from 650 m to 900 m, so that the valley floor at 500 m lies under it.</summary>
    private const string Listing = """
        11999 Hochtal Observations at 06Z 20 Oct 2026

        -----------------------------------------------------------------------------
           PRES   HGHT   TEMP   DWPT   RELH   MIXR   DRCT   SKNT   THTA   THTE   THTV
            hPa     m      C      C      %    g/kg    deg   knot     K      K      K
        -----------------------------------------------------------------------------
          962.0    450   -2.0   -2.2     99   3.36    140      4  274.2  283.9  274.8
          950.0    550   -2.6   -2.8     99   3.26                274.6  284.0  275.2
          938.0    650   -3.2   -3.4     99   3.15    150      5  275.0  284.1  275.5
          908.9    900    2.8   -6.2     52   2.63    200      8  283.6  291.5  284.0
          850.0   1450    1.0  -14.0     32   1.52    250     15  287.2  292.0  287.4
          700.0   2975   -8.0  -25.0     24   0.72    270     25  293.6  296.1  293.7
        """;

    private const string Light = "document.querySelector('#light-panel canvas').toDataURL()";

    [FactNeeds<Chromium>]
    public async Task A_sounding_that_is_dropped_lays_its_sea_of_cloud_into_picture_and_chart_with_reasons_until_it_is_left_out()
    {
        await using var data = new DataOfATest();
        await using var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!);
        await page.UntilDrawnAsync();
        var (bare, chart) = (await page.LookAsync("#ridge-panel canvas", from: 0.6), await page.Tab.EvaluateExpressionAsync<string>(Light));

        await page.DropFileAsync(data.Folder, "hochtal.txt", Encoding.UTF8.GetBytes(Listing));
        await page.UntilAsync("document.querySelector('#grids [role=status]').textContent.includes('laid under the plan')");
        await page.UntilDrawnAsync();
        Assert.Contains("likelihood of a sea of cloud: high", await page.TextAsync("#grids [role=status]"), StringComparison.Ordinal);
        // −3.4 °C and −3.2 °C at 650 m, −6.2 °C and 2.8 °C at 900 m: they part by 2 °C at 650 m + 250 m · 1.8 / 8.8.
        Assert.Contains("701 m", await page.TextAsync("#cloud"), StringComparison.Ordinal);
        Assert.True(await page.CountAsync("#cloud li") > 1);
        Assert.True((await page.LookAsync("#ridge-panel canvas", from: 0.6)).Brightness > bare.Brightness + 5);
        Assert.NotEqual(chart, await page.Tab.EvaluateExpressionAsync<string>(Light));

        await page.Tab.ClickAsync("#cloud button");
        await page.UntilAsync("document.getElementById('cloud').textContent.includes('No cloud below the lookout is assumed') && !document.body.classList.contains('working')");
        await page.UntilDrawnAsync();
        Assert.Equal(chart, await page.Tab.EvaluateExpressionAsync<string>(Light));
        Assert.Empty(page.Complaints);
    }

    [FactNeeds<Chromium>]
    public async Task A_text_that_is_no_sounding_is_refused_with_what_would_be_right_and_nothing_changes()
    {
        await using var data = new DataOfATest();
        await using var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!);
        await page.UntilDrawnAsync();
        var cloud = await page.TextAsync("#cloud");

        await page.DropFileAsync(data.Folder, "letter.txt", "Dear friend, the fog was lovely."u8.ToArray());
        await page.UntilAsync("document.querySelector('#grids .missing') !== null");
        var refusal = await page.TextAsync("#grids .missing");
        Assert.StartsWith("letter.txt was refused as a sounding: Is of no sounding format known here (", refusal, StringComparison.Ordinal);
        Assert.Contains("WMO FM 35", refusal, StringComparison.Ordinal);
        Assert.Equal(cloud, await page.TextAsync("#cloud"));
        Assert.True(await page.Tab.EvaluateExpressionAsync<bool>("document.getElementById('problem').hidden"));
    }

    [FactNeeds<Chromium>]
    public async Task A_typed_deck_lies_in_the_picture_as_a_bright_sea_and_in_the_chart()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!);
        await page.UntilDrawnAsync();
        var (bare, chart) = (await page.LookAsync("#ridge-panel canvas", from: 0.6), await page.Tab.EvaluateExpressionAsync<string>(Light));
        await page.TypeAsync("#plan-conditions-deckTopM", "900");
        await page.Tab.ClickAsync("#plan form.fields button");
        await page.UntilAsync("document.getElementById('cloud').textContent.includes('900 m') && !document.body.classList.contains('working')");
        await page.RestAsync();
        Assert.True((await page.LookAsync("#ridge-panel canvas", from: 0.6)).Brightness > bare.Brightness + 5);
        Assert.NotEqual(chart, await page.Tab.EvaluateExpressionAsync<string>(Light));
    }

    [FactNeeds<Chromium>]
    public async Task A_typed_visibility_hides_the_ridge_in_haze()
    {
        await using var page = await VisitedPage.OpenAsync(chromium, service.Client.BaseAddress!);
        await page.UntilDrawnAsync();
        await page.TypeAsync("#plan-conditions-visibilityKm", "200");
        await page.Tab.ClickAsync("#plan form.fields button");
        await page.UntilDrawnAsync();
        var clear = await page.LookAsync("#ridge-panel canvas", from: 0.6);
        await page.TypeAsync("#plan-conditions-visibilityKm", "20");
        await page.Tab.ClickAsync("#plan form.fields button");
        await page.UntilAsync("document.getElementById('plan-text').value.includes('\"visibilityKm\": 20\\n')");
        await page.UntilDrawnAsync();
        // Koschmieder: of the contrast of ground d away e^(−3.91 d / V) is left; at 15 km 75 % of it in the clear air, 5 % in the hazy.
        Assert.True((await page.LookAsync("#ridge-panel canvas", from: 0.6)).Spread < clear.Spread / 2);
    }
}
