using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Sky;

namespace Glowcast.Cli.Showing;

/// <summary>A forecast to be read, part by part.</summary>
internal static class ForecastPage
{
    /// <summary>All of it.</summary>
    public static void Write(Page page, LightForecast forecast)
    {
        WriteTitle(page, "Forecast", forecast);
        WriteWindows(page, forecast);
        PictureTable.Write(page, forecast);
        if (forecast.Set is { } set)
        {
            page.Heading("The set");
            SetFacts.Write(page, set);
        }
        if (forecast.Fit is { } fit)
        {
            page.Heading("Does it fit?");
            FitFacts.Write(page, fit, forecast.Remedies, forecast.WhyNothingFits, ClockOf(forecast));
        }
        WeatherFacts.Write(page, forecast);
        CloudFacts.Write(page, forecast);
        WriteAssumptions(page, forecast);
        page.Heading("Take care");
        page.List(forecast.Cautions);
    }

    public static Clock ClockOf(LightForecast forecast) => new(forecast.Plan.Date!.Value, forecast.Plan.Lookout!.Zone);

    public static void WriteTitle(Page page, string what, LightForecast forecast)
    {
        var (plan, lookout) = (forecast.Plan, forecast.Plan.Lookout!);
        page.Title($"{what} for {Say.Day(plan.Date!.Value, lookout.Zone)}");
        page.Facts(
            ("lookout", $"{lookout.Point}, eye at {Say.Metres(forecast.Eye.Height)}"),
            ("span", $"{plan.Span}, ridge from {plan.Thresholds.RidgeFrom.Kilometres:0.#} km on"),
            ("highest crest", forecast.Scene?.HighestCrest is { } crest ? $"{crest.Degrees:0.00}°" : null));
    }

    public static void WriteWindows(Page page, LightForecast forecast)
    {
        page.Heading(forecast.Windows.Count == 1 ? "The window of light" : "Windows of light");
        if (forecast.WhyNone is { } why) page.Paragraph($"None. {why}{(forecast.NoLight is { } cause ? $" {NoLightWords.NextStep(cause)}" : "")}", Tone.Bad);
        foreach (var warning in forecast.Warnings) page.Paragraph(warning, Tone.Doubtful);
        if (forecast.Windows.Count == 0) return;
        var clock = ClockOf(forecast);
        page.Table(["", .. clock.Headings, ">±", "because"], forecast.Windows.SelectMany((window, i) => (IReadOnlyList<string>[])
        [
            Row($"{Number(forecast, i)}starts", window.Start, clock),
            Row($"{Number(forecast, i)}ends", window.End, clock),
        ]));
        foreach (var (i, window) in forecast.Windows.Index())
        {
            page.Paragraph($"{Number(forecast, i)}{Describe(window)}");
            page.Facts(WindowFacts.Of(window));
            WriteLight(page, forecast, window);
        }
    }

    public static void WriteAssumptions(Page page, LightForecast forecast)
    {
        var (plan, thresholds) = (forecast.Plan, forecast.Plan.Thresholds);
        page.Heading("Taken for granted");
        page.Facts(
            ("lit ridge", $"{Say.Share(thresholds.CrestLit)} of its topmost {thresholds.CrestBand.Degrees:0.##}° sees {Say.Share(thresholds.DiscShare)} of the sun and is {ToneWords.Stops(thresholds.LitStops)} brighter for it, on {Say.Share(thresholds.ColumnsLit)} of the bearings that it lights that half of the day"),
            ("shaded valley", $"at most {Say.Share(thresholds.ValleyLit)} of its ground in the picture is lit"),
            ("cloud", CloudWords.Given(forecast.Cloud.Deck)),
            ("ground", ToneWords.Of(plan.Conditions.Surfaces)),
            ("visibility", plan.Conditions.VisibilityReport?.Sentence),
            ("refraction", $"k = {plan.Conditions.Sight.RefractionK} along the ground; standard air for the sun"),
            ("beyond grid", Say.Beyond(plan.Conditions.Sight)),
            ("holes", forecast.Scene is { Grid: var grid } ? GridNotes.Holes(grid) : null),
            ("heights off by", forecast.Scene is { Grid: var ground } ? GridNotes.HeightError(ground.HeightError) : null),
            ("±", "one standard deviation: grid, sight lines and the air's day-to-day refraction"));
    }

    private static void WriteLight(Page page, LightForecast forecast, LightWindow window)
    {
        var light = forecast.Brightness is { } ridge ? WindowBrightness.Of(ridge, window) : null;
        page.Facts(
            ("ridge", light is null ? null : $"{light.Middle.Light.TotalLux:0} lx half-way (± {light.Middle.UncertaintyStops:0.0} stops){Colour(light.Middle.Light)}, {light.Rate.Total:+0.00;-0.00} stops a minute"),
            ("relief", window.Picture?.Relief is { } relief ? $"{Say.Share(relief.Shadow)} of the ridge in its own or cast shadow" : null),
            ("black point", window.Tones?.BlackPoint is { } range ? ToneWords.Of(range) : null),
            ("ridge and shade", window.Picture?.BlackPoint is { } black ? BlackPoint(black, forecast) : null),
            ("exposure", window.Tones?.Exposure is { } exposure ? ToneWords.Of(exposure) : null),
            ("not seen", ToneWords.NotSeen(window.Tones?.Ridge)));
    }

    private static string Colour(RidgeLight light) => light.DirectColour.Correlated() is { } colour ? $", {colour.Kelvin:0} K" : "";

    private static string BlackPoint(BlackPoint black, LightForecast forecast) =>
        $"{LightWords.Of(black.Verdict)}: {black.Stops:0.0} stops between lit ridge and shade at {Say.Distance(black.Distance.Metres)}, seen through {forecast.Plan.Conditions.Visibility.Kilometres:0} km of visibility";

    private static string Number(LightForecast forecast, int i) => forecast.Windows.Count > 1 ? $"{i + 1} " : "";

    private static IReadOnlyList<string> Row(string name, WindowEdge edge, Clock clock) =>
        [name, .. clock.Cells(edge.At), Say.Time(edge.Uncertainty.CombinedS), LightWords.Because(edge.Cause)];

    private static string Describe(LightWindow window) =>
        $"{Say.Time(window.Length)} of {LightWords.Of(window.Direction)}: sun on {window.SunAzimuth.Degrees:0}°, {window.SunAltitude.Degrees:0.0}° high. "
        + $"Half-way, {Say.Share(window.RidgeShareInMiddle)} of the ridge and {Say.Share(window.ValleyShareInMiddle)} of the valley are lit."
        + (window.UnknownBeyond is { } edge ? $" Unknown: ground past the grid's edge, {Say.Distance(edge.Metres)} off towards the sun, could cast its shade here{Move(window)}; add the next grid to be sure." : "");

    private static string Move(LightWindow window) =>
        LightWords.CouldMove(window.UnknownCouldMove) is { } move ? $" and {move}" : "";
}
