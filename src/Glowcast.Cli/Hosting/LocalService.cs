using Glowcast.Engine.Measures;
using Glowcast.Server;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.Hosting;

namespace Glowcast.Cli.Hosting;

/// <summary>Runs the service on this machine, in the foreground.</summary>
internal static class LocalService
{
    /// <summary>Starts the service, says where it is, and runs it until stopped.</summary>
    /// <param name="say">Makes a sentence of its address.</param>
    /// <exception cref="BadInputException">The address is not of this machine, or is taken.</exception>
    public static async Task RunAsync(ServerOptions options, Terminal terminal, Func<string, string> say, CancellationToken cancel)
    {
        await using var app = Build(options);
        try
        {
            await app.StartAsync(cancel);
        }
        catch (IOException taken)
        {
            throw new BadInputException("--urls", $"Cannot listen on {options.Urls}: {taken.Message} Choose another port, or 0 for any free one.");
        }
        await terminal.Out.WriteLineAsync(say(string.Join(", ", app.Urls)));
        await app.WaitForShutdownAsync(cancel);
    }

    private static WebApplication Build(ServerOptions options) =>
        ServiceFaults.Named(() => ServerHost.Build(options), ("urls", "--urls"), ("data", "--data"));
}
