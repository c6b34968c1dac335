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
        return await CommandLine.RunAsync(args, Terminal.OfProcess(), stop.Token);
    }
}
