using System.Runtime.InteropServices;

namespace Glowcast.Cli;

internal static class Program
{
    private static async Task<int> Main(string[] args)
    {
        using var stop = new CancellationTokenSource();
        Console.CancelKeyPress += (_, pressed) =>
        {
            // The first asks for an orderly end; the second ends at once.
            pressed.Cancel = !stop.IsCancellationRequested;
            stop.Cancel();
        };
        using var ended = Ends(PosixSignal.SIGTERM, stop);
        using var hungUp = Ends(PosixSignal.SIGHUP, stop);
        return await CommandLine.RunAsync(args, Terminal.OfProcess(), stop.Token);
    }

    // What the system or a closed terminal sends: an orderly end as well, so that nothing half done is left.
    private static PosixSignalRegistration Ends(PosixSignal signal, CancellationTokenSource stop) => PosixSignalRegistration.Create(signal, sent =>
    {
        sent.Cancel = !stop.IsCancellationRequested;
        stop.Cancel();
    });
}
