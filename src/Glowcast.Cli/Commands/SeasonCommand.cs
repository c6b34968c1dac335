using System.CommandLine;
using System.Text;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Showing;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Field.Exports;
using Glowcast.Field.Pictures;
using Glowcast.Server.Answers;
using NodaTime;

namespace Glowcast.Cli.Commands;

/// <summary>Which days of a range have the light, the best first: for one plan or several, ranked together.</summary>
internal sealed class SeasonCommand : PlanCommand
{
    private readonly SeasonOptions options = new();
    private readonly Option<string[]> csv = Ask.For("--csv", "file", "Write all days to a file of comma-separated values.");
    private readonly Option<string[]> picture = Ask.For("--picture", "file", "Draw the days and their hours to a file that ends in .svg or .png.");

    public SeasonCommand(Terminal terminal) : base(
        "season", "Which days of a range have a window of light, ranked with reasons; --plan may be given several times.",
        "glowcast season --plan plan.json --from 2026-10-01 --to 2026-12-31", terminal) =>
        Takes([Plan, Grids, .. options.All, csv, picture, Within, FillHoles, Beyond, HighestBeyond, RefractionK]);

    protected override void Answer(Question asked, CancellationToken cancel)
    {
        var (first, last) = options.Range(asked);
        var filter = options.Filter(asked);
        var spans = options.Spans(asked);
        var (table, drawing) = (OutputFile.Of(asked, csv), OutputFile.Of(asked, picture, ".svg", ".png"));
        var sites = ReadAll(asked, PlanNeeds.Lookout).SelectMany(read => Sites(read, spans)).ToList();
        asked.Faults.ThrowIfAny();

        var seasons = Work(sites, first, last, filter, cancel);
        table?.Write(writer => SeasonCsv.Write(writer, SeasonForecast.Ranked(seasons)));
        drawing?.Write(Drawn(SeasonChart.Of(seasons), asked.Text(picture)));
        Reply(asked, SeasonAnswer.Of(seasons, first, last), page => SeasonPage.Write(page, seasons, first, last));
    }

    private static IEnumerable<SeasonSite> Sites(SeasonSite site, IReadOnlyList<BearingSpan> spans) => spans.Count == 0
        ? [site]
        : spans.Select(span => new SeasonSite(spans.Count > 1 ? $"{site.Name} {span}" : site.Name, site.Plan with { Span = span }, site.Grid));

    private static byte[] Drawn(SeasonChart chart, string? path) =>
        ".png".Equals(Path.GetExtension(path), StringComparison.OrdinalIgnoreCase) ? chart.Png() : Encoding.UTF8.GetBytes(chart.Svg());

    private IReadOnlyList<SiteSeason> Work(IReadOnlyList<SeasonSite> sites, LocalDate first, LocalDate last, SeasonFilter filter, CancellationToken cancel)
    {
        using var progress = new ProgressLine(Terminal, "working out the season");
        return SeasonForecast.Of(sites, first, last, filter, progress: progress, cancel: cancel);
    }
}
