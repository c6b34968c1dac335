using System.Diagnostics;
using System.Text.RegularExpressions;

namespace Glowcast.Cli.Tests;

/// <summary>The service in a process of its own, which can be killed.</summary>
internal sealed partial class ServiceProcess : IDisposable
{
    private readonly Process process;

    private readonly Task<string> said;

    private ServiceProcess(Process process, Task<string> said, Uri address) =>
        (this.process, this.said, Client) = (process, said, new HttpClient { BaseAddress = address, Timeout = TimeSpan.FromMinutes(10) });

    public HttpClient Client { get; }

    public static async Task<ServiceProcess> StartAsync(params IEnumerable<string> arguments)
    {
        var start = new ProcessStartInfo("dotnet", [typeof(CommandLine).Assembly.Location, "serve", .. arguments.Contains("--urls") ? [] : (string[])["--urls", "http://127.0.0.1:0"], .. arguments])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        var process = Process.Start(start)!;
        var said = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        while (await process.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken) is { } line)
            if (LocalAddress().Match(line) is { Success: true } match) return new ServiceProcess(process, said, new Uri(match.Value + "/"));
        throw new InvalidOperationException(await said);
    }

    /// <summary>Ends it at once, wherever it stands: SIGKILL.</summary>
    /// <returns>What it has written on standard error.</returns>
    public async Task<string> KillAsync()
    {
        process.Kill(entireProcessTree: true);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        return await said;
    }

    public void Dispose()
    {
        if (!process.HasExited) process.Kill(entireProcessTree: true);
        process.Dispose();
        Client.Dispose();
    }

    [GeneratedRegex(@"http://127\.0\.0\.1:\d+")]
    private static partial Regex LocalAddress();
}
