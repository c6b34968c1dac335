using System.Diagnostics;

namespace Glowcast.Cli.Tests;

public class CompletionTests
{
    [Theory]
    [InlineData("bash")]
    [InlineData("zsh")]
    [InlineData("fish")]
    [InlineData("pwsh")]
    public async Task Each_shell_gets_a_script_that_asks_for_the_words(string shell)
    {
        var outcome = await Outcome.Of("completion", shell);
        Assert.Equal(0, outcome.Exit);
        Assert.Contains("[suggest:", outcome.Out, StringComparison.Ordinal);
        Assert.Contains($"glowcast completion {shell}", outcome.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Words_are_suggested_for_what_is_typed()
    {
        Assert.Equal(["forecast"], Words(await Outcome.Of("[suggest:11]", "glowcast fo")));
        Assert.Contains("--plan", Words(await Outcome.Of("[suggest:18]", "glowcast forecast ")));
        Assert.Contains("zsh", Words(await Outcome.Of("[suggest:20]", "glowcast completion ")));
    }

    [Fact]
    public async Task Another_shell_is_a_fault() => Assert.Equal(["shell"], (await Outcome.Of("completion", "tcsh")).Faults);

    [FactNeeds<Bash>]
    public async Task Bash_completes_a_command_with_it()
    {
        var script = (await Outcome.Of("completion", "bash")).Out;
        var program = Path.Combine(AppContext.BaseDirectory, "glowcast");
        var typed = $"{script}\nglowcast() {{ '{program}' \"$@\"; }}\nCOMP_LINE='glowcast se'; COMP_POINT=11; COMP_WORDS=(glowcast se); COMP_CWORD=1; _glowcast; echo \"${{COMPREPLY[@]}}\"";
        using var bash = Process.Start(new ProcessStartInfo("/bin/bash", ["-c", typed]) { RedirectStandardOutput = true })!;
        Assert.Equal("season serve set", (await bash.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken)).Trim());
    }

    [Theory]
    [InlineData(true, null, "xterm", true)]
    [InlineData(true, "", "xterm", true)]
    [InlineData(true, "1", "xterm", false)]
    [InlineData(true, null, "dumb", false)]
    [InlineData(false, null, "xterm", false)]
    public void Colour_is_left_out_where_it_is_not_wanted(bool isScreen, string? noColour, string terminal, bool wants) =>
        Assert.Equal(wants, Terminal.WantsColour(isScreen, name => name == "NO_COLOR" ? noColour : terminal));

    private static string[] Words(Outcome outcome) => outcome.Out.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
}
