using System.Net.Sockets;
using Glowcast.Engine.Measures;
using Glowcast.Server;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.Hosting;

namespace Glowcast.Cli.Hosting;

/// <summary>Runs the service on this machine, in the foreground.</summary>
internal static class LocalService
{
    /// <summary>Starts the service, says where it is, and runs it until stopped.</summary>
    /// <param name="option">Where the user said, or could have said, at which address.</param>
    /// <param name="say">Makes of its addresses what is to be said.</param>
    /// <exception cref="BadInputException">The address is not of this machine, or is taken.</exception>
    public static async Task RunAsync(ServerOptions options, string option, Terminal terminal, Func<IReadOnlyList<string>, string> say, CancellationToken cancel)
    {
        await using var app = Build(options);
        try
        {
            await StartAsync(app, cancel);
        }
        catch (Exception refused) when (refused is IOException or SocketException)
        {
            throw new BadInputException(option, $"Cannot listen on {options.Urls}: another program does, or this machine has no such address. Choose another port, or 0 for any free one.");
        }
        await terminal.Out.WriteLineAsync(say([.. app.Urls]));
        await app.WaitForShutdownAsync(cancel);
    }

    // A service that was told to look at its addresses says itself what is wrong with them.
    private static async Task StartAsync(WebApplication app, CancellationToken cancel)
    {
        try
        {
            await app.StartAsync(cancel);
        }
        catch (AggregateException several) when (several.InnerExceptions.OfType<BadInputException>().FirstOrDefault() is { } bad)
        {
            throw bad;
        }
    }

    /// <summary>The address of a port at which nobody but this machine can call.</summary>
    public static string At(int port) => $"http://127.0.0.1:{port}";

    private static WebApplication Build(ServerOptions options) =>
        ServiceFaults.Named(() => ServerHost.Build(options), ("urls", "--urls"), ("data", "--data"));
}
