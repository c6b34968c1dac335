using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Hosting;
using Glowcast.Cli.Showing;
using Glowcast.Engine.Terrain;
using Glowcast.Server;

namespace Glowcast.Cli.Commands;

/// <summary>The invented range: its forecast, and the page that shows it.</summary>
internal sealed class DemoCommand : QuestionCommand
{
    private const int UsualPort = 5127;

    private readonly Option<bool> noServe = new("--no-serve") { Description = "Print the forecast only; start no service." };

    public DemoCommand(Terminal terminal) : base(
        "demo", "Try it: the forecast of an invented range, here and on a page.", "glowcast demo", terminal) => Takes(noServe);

    protected override async Task AnswerAsync(Question asked, CancellationToken cancel)
    {
        var grid = DemoSample.Grid();
        var forecast = ForecastWork.Run(Terminal, DemoSample.Plan(), grid, cancel);
        Page.Show(Terminal, page =>
        {
            page.Paragraph("The demo: an island that does not exist, and a lookout above its valley. Do not navigate by it.");
            page.Line("");
            ForecastPage.Write(page, forecast);
        });
        if (asked.Flag(noServe)) return;
        await LocalService.RunAsync(ServiceFor(grid), Terminal, address => $"\nThe page that shows it: {address}\nCtrl-C ends it.", cancel);
    }

    private ServerOptions ServiceFor(ElevationGrid grid)
    {
        var port = FreePort.From(UsualPort);
        if (port != UsualPort) Terminal.Error.WriteLine($"Port {UsualPort} is taken by another program; the page takes {(port == 0 ? "any that is free" : port)} instead.");
        return new ServerOptions
        {
            Urls = $"http://127.0.0.1:{port}",
            Grids = new Dictionary<string, ElevationGrid> { [DemoSample.GridName] = grid },
            DemoPlan = DemoSample.PlanJson(),
        };
    }
}
