using System.Text.Json;

namespace Glowcast.Cli.Tests;

/// <summary>What a command line answered.</summary>
internal sealed record Outcome(int Exit, string Out, string Error)
{
    /// <summary>Runs a command line in this process, as if into files.</summary>
    public static Task<Outcome> Of(params string[] args) => Of((output, error) => new Terminal(output, error), args);

    /// <summary>Runs a command line in this process on another kind of terminal.</summary>
    public static async Task<Outcome> Of(Func<TextWriter, TextWriter, Terminal> terminal, params string[] args)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var exit = await CommandLine.RunAsync(args, terminal(output, error), TestContext.Current.CancellationToken);
        return new Outcome(exit, output.ToString(), error.ToString());
    }

    /// <summary>The one JSON object that the answer is.</summary>
    public JsonElement Json
    {
        get
        {
            Assert.True(Exit == 0, $"exit {Exit}: {Error}");
            return JsonDocument.Parse(Out).RootElement;
        }
    }

    public string[] Lines => Out.Split(Environment.NewLine);

    /// <summary>The fields that are blamed, in the order they are said.</summary>
    public string[] Faults
    {
        get
        {
            Assert.True(Exit == 2, $"exit {Exit}: {Out}{Error}");
            Assert.Empty(Out);
            Assert.DoesNotContain("   at ", Error, StringComparison.Ordinal);
            return [.. Error.Split(Environment.NewLine, StringSplitOptions.RemoveEmptyEntries).Select(line => line[..line.IndexOf(": ", StringComparison.Ordinal)])];
        }
    }
}
