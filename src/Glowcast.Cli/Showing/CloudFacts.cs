using Glowcast.Engine.Forecast;

namespace Glowcast.Cli.Showing;

/// <summary>What a forecast says of cloud, to be read.</summary>
internal static class CloudFacts
{
    public static void Write(Page page, LightForecast forecast)
    {
        var (cloud, clock) = (forecast.Cloud, ForecastPage.ClockOf(forecast));
        page.Heading("The sea of cloud");
        page.Facts((IEnumerable<(string, string?)>)
        [
            ("assumed", CloudWords.Given(cloud.Deck)),
            ("likely?", cloud.Deck.Diagnosis is { } diagnosis ? $"{SoundingPage.LikelihoodWord(diagnosis.ClassAt(cloud.Reach!))}: 'glowcast cloud' on the sounding says why" : null),
            ("lookout", cloud.Deck.Diagnosis?.LookoutAt(forecast.Eye.Height) is { } lookout ? CloudWords.Lookout(lookout) : null),
            ("sun on it", cloud.Light is { } light ? SunOn(light, forecast, clock) : null),
            ("clears", cloud.Clears is { } clears ? $"between {clock.Say(clears.Start)} and {clock.Say(clears.End)}, if at all: a range, not a promise" : null),
            .. cloud.Sunward.Select(cut => ("sky", (string?)cut.Condition)),
        ]);
        WriteSweep(page, cloud.Sweep);
    }

    private static string SunOn(DeckLight light, LightForecast forecast, Clock clock)
    {
        var first = light.FirstSun is { } begins ? $"first at {clock.Say(begins)}" : "none in view";
        var half = light.HalfLit is { } lit ? $", on half of it from {clock.Say(lit)}" : "";
        var grazing = forecast.Windows.Count > 0 && light.At(forecast.Windows[0].Middle, forecast.Plan.Conditions.Haze) is var sun
            ? $"; {sun.Altitude.Degrees:0.0}° over it half-way through the window, {sun.DirectLux:0} lx where nothing shades it"
            : "";
        return first + half + grazing;
    }

    private static string Lost(DeckSweep sweep)
    {
        if (sweep.HalfSwallowed is not { } half || half >= sweep.Eye) return "";
        return $"; from {Say.Metres(half)} half of it is gone{(sweep.AllSwallowed is { } all && all < sweep.Eye ? $", from {Say.Metres(all)} all" : "")}";
    }

    private static void WriteSweep(Page page, DeckSweep sweep)
    {
        if (sweep.FirstSwallowed is not { } first) return;
        page.Paragraph(first == sweep.Eye
            ? $"A rising deck leaves all of the ridge until it drowns the lookout, at {Say.Metres(sweep.Eye)}."
            : $"A deck up to {Say.Metres(first)} leaves all of the ridge{Lost(sweep)}. At {Say.Metres(sweep.Eye)} the lookout is drowned.");
        page.Table([">deck top", ">crest left", ">islands", "lookout"], sweep.Table().Select(row => (IReadOnlyList<string>)
            [Say.Metres(row.Top), Say.Share(row.CrestShare), $"{row.Islands}", row.IsLookoutDrowned ? "drowned" : "above"]));
    }
}
