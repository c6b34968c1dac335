using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Showing;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Server.Answers;
using NodaTime;

namespace Glowcast.Cli.Commands;

/// <summary>Which days of a range have the light, the best first.</summary>
internal sealed class SeasonCommand : PlanCommand
{
    private const int RowsShown = 20;

    private readonly Option<string[]> from = Ask.For("--from", "date", "First day of the range.");
    private readonly Option<string[]> to = Ask.For("--to", "date", "Last day of the range, at most five years later.");

    public SeasonCommand(Terminal terminal) : base(
        "season", "Which days of a range have a window of light, ranked with reasons.",
        "glowcast season --plan plan.json --from 2026-10-01 --to 2027-03-31", terminal) =>
        Takes(Plan, Grids, from, to, Within, FillHoles, Beyond, HighestBeyond, RefractionK);

    protected override void Answer(Question asked, CancellationToken cancel)
    {
        var first = asked.Required(from, "a date such as 2026-10-01", TimeReader.Date);
        var last = asked.Required(to, "a date such as 2027-03-31", TimeReader.Date);
        var isRange = asked.Has(from) && asked.Has(to) && !asked.Faults.Any;
        if (isRange && (last < first || Period.DaysBetween(first, last) >= Season.MostDays))
            asked.Faults.Add(to.Name, $"Must be the same day as {from.Name} or up to five years later; got {Say.Iso(first)} to {Say.Iso(last)}.");
        var (plan, grid) = Read(asked, PlanNeeds.Lookout);
        asked.Faults.ThrowIfAny();

        var lookout = plan!.Lookout!;
        using var progress = new ProgressLine(Terminal, "working out the season");
        var days = Forecaster.Season(plan, grid!, first, last, progress, cancel);
        var answer = SeasonAnswer.Of(days, lookout.Zone);
        Reply(asked, answer, page =>
        {
            page.Title($"Days with light from {answer.From} to {answer.To}");
            var good = answer.Days.Where(day => day.Windows.Count > 0).ToList();
            if (good.Count == 0)
            {
                page.Paragraph($"None: {days[0].Reasons[0]}");
                return;
            }
            page.Paragraph($"{good.Count} of {answer.Days.Count} days have a window. Times are {(lookout.Zone is { } zone ? zone.Id : "UTC")}, to a minute or two.");
            page.Table(["date", "start", ">min", ">lit", ">valley", ">sun", ">score"], good.Take(RowsShown).Select(Row));
            if (good.Count > RowsShown) page.Paragraph($"and {good.Count - RowsShown} more; --json has them all.");
            page.Heading($"Why {good[0].Date}");
            page.List(good[0].Reasons);
        });
    }

    private static IReadOnlyList<string> Row(SeasonDayAnswer day)
    {
        var best = day.Windows.MaxBy(window => window.LengthS)!;
        return
        [
            day.Date, (best.StartLocal ?? best.Start)[11..16], $"{best.LengthS / 60:0}", Say.Share(best.LitShare), Say.Share(best.ValleyShare),
            $"{best.SunAltitudeDeg:0.0}°", $"{day.Score:0.00}",
        ];
    }
}
