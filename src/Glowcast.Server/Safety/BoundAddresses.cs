using System.Net;
using Glowcast.Engine.Measures;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;

namespace Glowcast.Server.Safety;

/// <summary>Judges the addresses that the server below has really taken: a service that asks nobody for a token must be reached by nobody but this machine,
/// whatever was understood of the addresses it was given.</summary>
internal sealed class BoundAddresses(IServer server, ListenAddresses listen) : IHostedLifecycleService
{
    public Task StartingAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StartAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    /// <exception cref="BadInputException">One of them can be reached from elsewhere, and nobody would be asked for a token; the service is stopped.</exception>
    public async Task StartedAsync(CancellationToken cancellationToken)
    {
        if (!listen.IsThisMachineOnly) return;
        var bound = server.Features.Get<IServerAddressesFeature>()?.Addresses ?? [];
        if (bound.FirstOrDefault(address => !ListenAddresses.IsOfThisMachine(address)) is not { } open) return;
        await server.StopAsync(cancellationToken);
        throw new BadInputException("urls", $"Were understood as this machine's own, but the service would listen on {open}, where others reach it and nobody is asked for a token; name the address as http://127.0.0.1:5127 or http://0.0.0.0:5127.");
    }

    public Task StoppingAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    public Task StoppedAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    /// <summary>Whether a request came in at an address of this machine; a server that has no addresses is reached by nobody else.</summary>
    public static bool IsReachedAtThisMachine(ConnectionInfo connection) => connection.LocalIpAddress is not { } local || IPAddress.IsLoopback(local);
}
