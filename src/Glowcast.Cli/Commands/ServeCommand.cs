using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Hosting;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Server;

namespace Glowcast.Cli.Commands;

/// <summary>The service and its page.</summary>
internal sealed class ServeCommand : QuestionCommand
{
    private readonly Option<string[]> urls = Ask.For("--urls", "address", "Where to listen. Default http://127.0.0.1:5127; port 0 takes a free one. At any address but this machine's own, whoever calls must show a token.");
    private readonly Option<string[]> grids = Ask.Grids();
    private readonly Option<string[]> data = Ask.For("--data", "folder", "Where to keep what the service is given; made where it is not there. Without it, all is gone when the service ends.");

    private readonly Option<bool> newToken = new("--new-token") { Description = "Make a new token; the one before is of no use any more." };

    public ServeCommand(Terminal terminal) : base(
        "serve", "Run the service and its page, with grids that plans may name.", "glowcast serve --grid N44W072.hgt", terminal) =>
        Takes(urls, grids, data, newToken);

    protected override async Task AnswerAsync(Question asked, CancellationToken cancel)
    {
        var options = new ServerOptions();
        options = options with { Urls = asked.Text(urls) ?? options.Urls, DataFolder = asked.Text(data), RenewToken = asked.Flag(newToken), ShowToken = ShowToken };
        var paths = asked.Texts(grids);
        var shelf = paths.Count > 0 ? asked.Try(() => Shelf(paths)) : null;
        asked.Faults.ThrowIfAny();
        if (shelf is not null) options = options with { Grids = shelf };
        var kept = options.DataFolder is { } folder ? $"What it is given is kept in {folder}." : "What it is given is gone when it ends; --data <folder> keeps it.";
        await LocalService.RunAsync(options, Terminal, address => $"Glowcast serves at {address}. Ctrl-C ends it.\n{kept}", cancel);
    }

    private void ShowToken(string token) =>
        Terminal.Error.WriteLine($"Token, shown this once: {token}\nWhoever calls shows it as Authorization: Bearer <token>; a browser asks for it as password.");

    private Dictionary<string, ElevationGrid> Shelf(IReadOnlyList<string> paths)
    {
        var shelf = new Dictionary<string, ElevationGrid>();
        foreach (var grid in GridFiles.ReadEach(paths, grids.Name))
            if (!shelf.TryAdd(grid.Name, grid)) throw new BadInputException(grids.Name, $"Names {grid.Name} twice; plans could not tell them apart.");
        return shelf;
    }
}
