using System.Collections.ObjectModel;
using System.Text.Json;
using Glowcast.Engine.Terrain;

namespace Glowcast.Server;

/// <summary>What the service is given when it starts.</summary>
public sealed record ServerOptions
{
    /// <summary>Where a service listens that is told no port.</summary>
    public const int UsualPort = 5127;

    /// <summary>Addresses to listen on, parted by semicolons; port 0 takes a free one. Any but this machine's own requires a token of whoever calls.</summary>
    public string Urls { get; init; } = $"http://127.0.0.1:{UsualPort}";

    /// <summary>The elevation grids by id: what the <c>grids</c> of a posted plan name.</summary>
    public IReadOnlyDictionary<string, ElevationGrid> Grids { get; init; } = ReadOnlyDictionary<string, ElevationGrid>.Empty;

    /// <summary>Where the service keeps what it is given; made where it is not there. Null to keep it until the service ends.</summary>
    public string? DataFolder { get; init; }

    /// <summary>Gets the token when it is made, the only time that it can be seen.</summary>
    public Action<string> ShowToken { get; init; } = token => Console.Error.WriteLine($"Token: {token}");

    /// <summary>Whether a new token takes the place of the one made before.</summary>
    public bool RenewToken { get; init; }

    /// <summary>Whether the log is one JSON object a line.</summary>
    public bool LogsAsJson { get; init; }

    /// <summary>Where an OpenTelemetry collector takes metrics and traces (OTLP over HTTP), such as http://127.0.0.1:4318; null to send none.</summary>
    public Uri? Collector { get; init; }

    /// <summary>No uploaded file may be larger.</summary>
    public long MostUploadBytes { get; init; } = 512L << 20;

    /// <summary>Who sends or takes less is cut off.</summary>
    public double SlowestBytesPerSecond { get; init; } = 8 << 10;

    /// <summary>… after so long.</summary>
    public TimeSpan SlownessBorne { get; init; } = TimeSpan.FromSeconds(5);

    /// <summary>No body may take longer to arrive.</summary>
    public TimeSpan LongestArrival { get; init; } = TimeSpan.FromMinutes(15);

    /// <summary>The grids of one plan may have no more posts together.</summary>
    public long MostPosts { get; init; } = 150_000_000;

    /// <summary>No forecast may take longer.</summary>
    public TimeSpan LongestForecast { get; init; } = TimeSpan.FromMinutes(5);

    /// <summary>More plans than this do not wait for their turn: they are told to come again.</summary>
    public int MostWaitingForecasts { get; init; } = 64;

    /// <summary>Jobs done side by side.</summary>
    public int JobsAtOnce { get; init; } = 1;

    /// <summary>More jobs than this do not wait.</summary>
    public int MostWaitingJobs { get; init; } = 100;

    /// <summary>Answers that can be worked out again take no more room in the data folder.</summary>
    public long MostCachedBytes { get; init; } = 1L << 30;

    /// <summary>The plan that the page opens with; its grids are ids too. Null for none.</summary>
    public JsonElement? DemoPlan { get; init; }
}
