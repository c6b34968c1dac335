using System.Text;
using System.Text.RegularExpressions;
using Glowcast.Engine.Forecast;
using Glowcast.Field.Card;
using Glowcast.Server.Tests.Browser;
using PuppeteerSharp;
using PuppeteerSharp.Media;

namespace Glowcast.Field.Tests.Browser;

/// <summary>The card in a real browser: on paper, and on a phone by day and by night.</summary>
[Trait("Category", "Browser")]
public partial class PrintedCardTests(Chromium chromium)
{
    public static TheoryData<string> Kinds => ["fits", "too long", "no light", "over cloud", "everything"];

    [TheoryNeeds<Chromium>]
    [MemberData(nameof(Kinds))]
    public async Task It_prints_on_one_side_of_A5(string kind)
    {
        await using var page = await OpenAsync(kind);
        var pdf = Encoding.Latin1.GetString(await page.PdfDataAsync(new PdfOptions { PreferCSSPageSize = true, PrintBackground = true }));
        Assert.Single(Pages().Matches(pdf));
        // 210 × 148 mm in points.
        Assert.Matches(@"/MediaBox \[0 0 59[45][.0-9]* 4(19|20)[.0-9]*\]", pdf);
        // A browser shrinks what does not fit, so nothing may stick out: 210 × 148 mm less the margins, in pixels of 1/96 inch.
        await page.SetViewportAsync(new ViewPortOptions { Width = 748, Height = 521 });
        await page.EmulateMediaTypeAsync(MediaType.Print);
        Assert.Empty(await page.EvaluateExpressionAsync<string[]>(
            "[document.body, ...document.querySelectorAll('main, section')].filter(e => { const r = e.getBoundingClientRect(); return r.right > 749 || r.bottom > 521.5; }).map(e => e.className || e.tagName)"));
    }

    [TheoryNeeds<Chromium>]
    [MemberData(nameof(Kinds))]
    public async Task Nothing_but_its_pictures_is_wider_than_a_phone(string kind)
    {
        await using var page = await OpenAsync(kind);
        Assert.Equal(0, await page.EvaluateExpressionAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth"));
    }

    [FactNeeds<Chromium>]
    public async Task At_night_it_is_red_on_black_by_the_phones_setting_or_by_its_own_switch()
    {
        await using var page = await OpenAsync("fits");
        Assert.False(await IsNightAsync(page));
        await page.ClickAsync("#night");
        Assert.True(await IsNightAsync(page));
        await page.EmulateMediaFeaturesAsync([new MediaFeatureValue { MediaFeature = MediaFeature.PrefersColorScheme, Value = "dark" }]);
        Assert.False(await IsNightAsync(page));
        await page.ClickAsync("#night");
        Assert.True(await IsNightAsync(page));
    }

    private async Task<IPage> OpenAsync(string kind)
    {
        var page = await chromium.OpenAsync(390, 844);
        await page.SetContentAsync(new FieldCard(ForecastOf(kind), new CardChoices()).Html());
        return page;
    }

    private static LightForecast ForecastOf(string kind) => kind switch
    {
        "fits" => Forecasts.ThatFits,
        "too long" => Forecasts.TooLong,
        "no light" => Forecasts.WithoutLight,
        "everything" => Forecasts.WithEverything,
        _ => Forecasts.OverCloud,
    };

    private static Task<bool> IsNightAsync(IPage page) => page.EvaluateFunctionAsync<bool>(
        "() => { const s = getComputedStyle(document.body); const [r, g, b] = s.color.match(/[0-9]+/g).map(Number); return s.backgroundColor === 'rgb(0, 0, 0)' && r > 3 * g && r > 3 * b && r < 200; }");

    [GeneratedRegex(@"/Type\s*/Page\b(?!s)")]
    private static partial Regex Pages();
}
