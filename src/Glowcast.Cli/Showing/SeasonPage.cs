using System.Globalization;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Cli.Showing;

/// <summary>A season to be read: the best days, and why the best is the best.</summary>
internal static class SeasonPage
{
    private const int RowsShown = 20;

    public static void Write(Page page, IReadOnlyList<SiteSeason> seasons, LocalDate from, LocalDate to)
    {
        var ranked = SeasonForecast.Ranked(seasons);
        var good = ranked.Where(entry => entry.Day.Best is not null).ToList();
        var isNamed = seasons.Count > 1;
        page.Title($"Days with light from {Say.Iso(from)} to {Say.Iso(to)}");
        if (ranked.Count == 0)
        {
            page.Paragraph("No day of the range falls on the weekdays asked for.");
            return;
        }
        foreach (var season in seasons)
        {
            var clock = season.Site.Plan.Lookout?.Zone?.Id ?? "local mean solar time";
            page.Paragraph($"{(isNamed ? $"{season.Site.Name}: " : "")}{season.Days.Count(day => day.Best is not null)} of {season.Days.Count} days have a window. Times are {clock}, to a minute or two. {CloudWords.Given(GivenDeck.Of(season.Site.Plan.Conditions))}");
        }
        if (good.Count == 0)
        {
            page.Paragraph($"None: {ranked[0].Day.Reasons[0]}");
            return;
        }
        string[] name = isNamed ? ["plan"] : [];
        page.Table(["date", "", .. name, ">starts", ">min", "set", ">lit", ">valley", ">black", ">score"], good.Take(RowsShown).Select(entry => Row(entry, isNamed)));
        if (good.Count > RowsShown) page.Paragraph($"and {good.Count - RowsShown} more; --json and --csv have them all.");
        page.Heading($"Why {Say.Iso(good[0].Day.Date)}{(isNamed ? $", {good[0].Site.Name}" : "")}");
        WriteParts(page, good[0].Day.Score!);
    }

    private static IReadOnlyList<string> Row(RankedDay entry, bool isNamed)
    {
        var (day, best) = (entry.Day, entry.Day.Best!);
        string[] name = isNamed ? [entry.Site.Name] : [];
        return
        [
            Say.Iso(day.Date), $"{day.Date.DayOfWeek}"[..3], .. name, Rounded.ToMinutes(best.Begins).ToString("HH:mm", CultureInfo.InvariantCulture), $"{best.Time.Duration.TotalMinutes:0}", SetOf(best.Fit),
            Say.Share(best.RidgeShare), Say.Share(best.ValleyShare), best.BlackPoint is { } black ? $"{black.Stops:0.0}" : "-", Points(day.Points),
        ];
    }

    private static string SetOf(DayFit? fit) => fit switch
    {
        null => "",
        { Verdict: Verdict.TooLong } => $"does not fit{Close(fit)}",
        _ => $"{(fit.Verdict == Verdict.Fits ? "fits" : "tight")}, {FitWords.Chance(fit.Chance)}{Close(fit)}",
    };

    private static string Close(DayFit fit) => fit.IsClose ? ", close: ask a forecast" : "";

    private static void WriteParts(Page page, DayScore score)
    {
        page.Table([">points", ">of", "because"], score.Parts.Select(part => (IReadOnlyList<string>)
        [
            part.Value is { } value ? Points(value * part.Weight) : "-", Points(part.Weight), part.Reason,
        ]));
        if (score.Shortfall < 1) page.Paragraph($"All of it times {score.Shortfall:0.00}, the chance that every frame has its light.");
    }

    private static string Points(double score) => $"{100 * score:0.0}";
}
