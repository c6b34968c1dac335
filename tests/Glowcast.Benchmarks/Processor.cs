using System.Diagnostics;

namespace Glowcast.Benchmarks;

internal static class Processor
{
    /// <summary>User and system time of all threads of this process while something runs.</summary>
    public static double SecondsOf(Action run)
    {
        using var process = Process.GetCurrentProcess();
        var before = process.TotalProcessorTime;
        run();
        process.Refresh();
        return (process.TotalProcessorTime - before).TotalSeconds;
    }
}
