using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Hosting;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Server;
using Glowcast.Server.Answers;

namespace Glowcast.Cli.Commands;

/// <summary>The service and its page.</summary>
internal sealed class ServeCommand : AnswerCommand
{
    private readonly Option<string[]> urls = Ask.For("--urls", "address", "Where to listen. Default http://127.0.0.1:5127; port 0 takes a free one. At any address but this machine's own, whoever calls must show a token.");
    private readonly Option<string[]> port = Ask.Port();
    private readonly Option<string[]> grids = Ask.Grids();
    private readonly Option<string[]> data = Ask.For("--data", "folder", "Where to keep what the service is given; made where it is not there. Without it, all is gone when the service ends.");

    private readonly Option<bool> newToken = new("--new-token") { Description = "Make a new token; the one before is of no use any more." };

    private readonly Option<bool> logJson = new("--log-json") { Description = "Log on standard error as one JSON object a line, requests too." };
    private readonly Option<string[]> telemetry = Ask.For("--telemetry", "address", "Send metrics and traces to an OpenTelemetry collector there (OTLP over HTTP), such as http://127.0.0.1:4318.");

    public ServeCommand(Terminal terminal) : base(
        "serve", "Run the service and its page, with grids that plans may name.", "glowcast serve --grid N44W072.hgt", terminal) =>
        Takes(urls, port, grids, data, newToken, logJson, telemetry);

    protected override async Task AnswerAsync(Question asked, CancellationToken cancel)
    {
        // Shown with the answer: the other stream is the log's, and logs are kept and read by others.
        string? shown = null;
        var options = new ServerOptions();
        options = options with
        {
            Urls = asked.Text(urls) ?? (asked.Has(port) ? LocalService.At(asked.Port(port)) : options.Urls),
            DataFolder = asked.Text(data),
            RenewToken = asked.Flag(newToken),
            ShowToken = token => shown = token,
            LogsAsJson = asked.Flag(logJson),
            Collector = asked.Optional(telemetry, ReadCollector),
        };
        if (asked.Has(urls)) asked.Refuse(port, $"Cannot stand beside {urls.Name}, which has a port of its own.");
        if (File.Exists(options.DataFolder)) asked.Faults.Add(data.Name, $"Is a file; name a folder, or one that is to be made. Got '{options.DataFolder}'.");
        var paths = asked.Texts(grids);
        var shelf = paths.Count > 0 ? asked.Try(() => Shelf(paths)) : null;
        asked.Faults.ThrowIfAny();
        if (shelf is not null) options = options with { Grids = shelf };
        var kept = options.DataFolder is { } folder ? $"What it is given is kept in {folder}." : "What it is given is gone when it ends; --data <folder> keeps it.";
        await LocalService.RunAsync(
            options, asked.Has(port) ? port.Name : urls.Name, Terminal, addresses => WantsJson(asked)
                ? AnswerJson.Write(new { Addresses = addresses, Data = options.DataFolder, Token = shown })
                : $"Glowcast serves at {string.Join(", ", addresses)}. Ctrl-C ends it.\n{kept}{(shown is null ? "" : $"\n{Shown(shown)}")}",
            cancel);
    }

    private static Uri ReadCollector(string text, string field) => Uri.TryCreate(text, UriKind.Absolute, out var uri) && (uri.Scheme == Uri.UriSchemeHttp || uri.Scheme == Uri.UriSchemeHttps)
        ? uri
        : throw new BadInputException(field, $"Must be an address such as http://127.0.0.1:4318; got '{Shortened.To80(text)}'.");

    private static string Shown(string token) =>
        $"Token, shown this once: {token}\nWhoever calls shows it as Authorization: Bearer <token>; a browser asks for it as password.";

    private Dictionary<string, ElevationGrid> Shelf(IReadOnlyList<string> paths)
    {
        var shelf = new Dictionary<string, ElevationGrid>();
        foreach (var grid in GridFiles.ReadEach(paths, grids.Name))
            if (!shelf.TryAdd(grid.Name, grid)) throw new BadInputException(grids.Name, $"Names {grid.Name} twice; plans could not tell them apart.");
        return shelf;
    }
}
