using System.Text.RegularExpressions;

namespace Glowcast.Cli.Tests;

/// <summary>A command that runs until it is stopped.</summary>
internal sealed class RunningCommand : IAsyncDisposable
{
    private readonly Announcements output = new();
    private readonly StringWriter error = new();
    private readonly CancellationTokenSource stop = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
    private readonly Task<int> exit;

    public RunningCommand(params string[] args) => exit = Task.Run(() => CommandLine.RunAsync(args, output, error, stop.Token));

    /// <summary>All it said; to be read when it has said its address, the last thing it says.</summary>
    public string Out => output.ToString();

    public string Error => error.ToString();

    /// <summary>Where it says that it listens.</summary>
    public async Task<Uri> AddressAsync()
    {
        await Task.WhenAny(output.Address, exit);
        Assert.False(exit.IsCompleted, error.ToString());
        return await output.Address;
    }

    public async Task<int> StopAsync()
    {
        await stop.CancelAsync();
        return await exit;
    }

    public async ValueTask DisposeAsync()
    {
        await StopAsync();
        stop.Dispose();
        await output.DisposeAsync();
        await error.DisposeAsync();
    }
}

/// <summary>Waits for the line with an address.</summary>
internal sealed partial class Announcements : StringWriter
{
    private readonly TaskCompletionSource<Uri> address = new(TaskCreationOptions.RunContinuationsAsynchronously);

    public Task<Uri> Address => address.Task;

    public override async Task WriteLineAsync(string? value)
    {
        await base.WriteLineAsync(value);
        if (LocalAddress().Match(value ?? "") is { Success: true } match) address.SetResult(new Uri(match.Value + "/"));
    }

    [GeneratedRegex(@"http://127\.0\.0\.1:\d+")]
    private static partial Regex LocalAddress();
}
