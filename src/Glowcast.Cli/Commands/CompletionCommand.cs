using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Engine.Measures;

namespace Glowcast.Cli.Commands;

/// <summary>What a shell must know to complete the words of this program; the words themselves it asks for as one types.</summary>
internal sealed class CompletionCommand : AnswerCommand
{
    private static readonly string[] Shells = ["bash", "zsh", "fish", "pwsh"];

    private readonly Argument<string[]> shell = new("shell")
    {
        Description = $"One of {string.Join(", ", Shells)}.",
        Arity = ArgumentArity.ZeroOrMore,
    };

    public CompletionCommand(Terminal terminal) : base(
        "completion", "A script that lets a shell complete the commands and options.", "source <(glowcast completion bash)", terminal)
    {
        shell.CompletionSources.Add(Shells);
        Arguments.Add(shell);
    }

    protected override async Task AnswerAsync(Question asked, CancellationToken cancel)
    {
        var names = asked.Texts(shell);
        if (names.Count != 1 || !Shells.Contains(names[0]))
            throw new BadInputException(shell.Name, $"Must be one of {string.Join(", ", Shells)}; got '{Shortened.To80(string.Join(' ', names))}'.");
        using var script = new StreamReader(typeof(CompletionCommand).Assembly.GetManifestResourceStream($"glowcast.{names[0]}")
            ?? throw new InvalidOperationException($"This program was built without its script for {names[0]}."));
        await Terminal.Out.WriteAsync(await script.ReadToEndAsync(cancel));
    }
}
