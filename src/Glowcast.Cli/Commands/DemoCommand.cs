using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Hosting;
using Glowcast.Cli.Showing;
using Glowcast.Engine.Terrain;
using Glowcast.Server;
using Glowcast.Server.Answers;

namespace Glowcast.Cli.Commands;

/// <summary>The invented range: its forecast, and the page that shows it.</summary>
internal sealed class DemoCommand : AnswerCommand
{
    private readonly Option<bool> noServe = new("--no-serve") { Description = "Print the forecast only; start no service. So does --json." };
    private readonly Option<string[]> port = Ask.Port();

    public DemoCommand(Terminal terminal) : base(
        "demo", "Try it: the forecast of an invented range, here and on a page.", "glowcast demo", terminal) => Takes(port, noServe);

    protected override async Task AnswerAsync(Question asked, CancellationToken cancel)
    {
        var wanted = asked.Has(port) ? asked.Port(port) : (int?)null;
        asked.Faults.ThrowIfAny();
        var grid = DemoSample.Grid();
        var forecast = ForecastWork.Run(Terminal, DemoSample.Plan(), grid, cancel);
        Reply(asked, ForecastAnswer.Of(forecast, withPictures: false), page =>
        {
            page.Paragraph("The demo: an island that does not exist, and a lookout above its valley. Do not navigate by it.");
            page.Line("");
            ForecastPage.Write(page, forecast);
        });
        if (asked.Flag(noServe) || WantsJson(asked)) return;
        await LocalService.RunAsync(ServiceFor(grid, wanted ?? UsualOrNext()), port.Name, Terminal, addresses => $"\nThe page that shows it: {string.Join(", ", addresses)}\nCtrl-C ends it.", cancel);
    }

    private int UsualOrNext()
    {
        var free = FreePort.From(ServerOptions.UsualPort);
        if (free != ServerOptions.UsualPort) Terminal.Tell($"Port {ServerOptions.UsualPort} is taken by another program; the page takes {(free == 0 ? "any that is free" : free)} instead.");
        return free;
    }

    private static ServerOptions ServiceFor(ElevationGrid grid, int port) => new()
    {
        Urls = LocalService.At(port),
        Grids = new Dictionary<string, ElevationGrid> { [DemoSample.GridName] = grid },
        DemoPlan = DemoSample.PlanJson(),
    };
}
