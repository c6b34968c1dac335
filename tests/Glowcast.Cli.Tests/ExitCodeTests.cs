using System.Text;

namespace Glowcast.Cli.Tests;

public class ExitCodeTests(MadeValley valley) : IClassFixture<MadeValley>
{
    private static readonly string[] AnyLine = ["sun", "--at", "2026-02-14T12:00:00Z", "--latitude", "46", "--longitude", "7", "--json"];

    [Fact]
    public async Task A_fault_of_ours_is_one_with_an_apology_and_no_stack_trace()
    {
        var (exit, said) = await RunBroken(traces: false);

        Assert.Equal(1, exit);
        Assert.StartsWith("Sorry", said, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_fault_of_ours_is_traced_when_asked_for()
    {
        var (exit, said) = await RunBroken(traces: true);

        Assert.Equal(1, exit);
        Assert.Contains("   at ", said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Long_work_can_be_stopped()
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        using var stop = new CancellationTokenSource();
        await stop.CancelAsync();

        var exit = await CommandLine.RunAsync(["forecast", "--plan", valley.Plan], output, error, stop.Token);

        Assert.Equal(130, exit);
        Assert.Empty(output.ToString());
        Assert.Equal("Stopped.", error.ToString().Trim());
    }

    [Theory]
    [InlineData()]
    [InlineData("grid")]
    public async Task Words_that_only_lead_to_others_answer_with_their_help(params string[] words)
    {
        var outcome = await Outcome.Of(words);

        Assert.Equal(0, outcome.Exit);
        Assert.Contains("Commands:", outcome.Out, StringComparison.Ordinal);
    }

    private static async Task<(int Exit, string Said)> RunBroken(bool traces)
    {
        using var error = new StringWriter();
        var exit = await CommandLine.RunAsync(AnyLine, new Terminal(new BrokenWriter(), error) { TracesFaults = traces }, TestContext.Current.CancellationToken);
        return (exit, error.ToString());
    }

    /// <summary>Stands for any fault that nobody thought of.</summary>
    private sealed class BrokenWriter : TextWriter
    {
        public override Encoding Encoding => Encoding.UTF8;

        public override void WriteLine(string? value) => throw new InvalidOperationException("Made to fail.");
    }
}
