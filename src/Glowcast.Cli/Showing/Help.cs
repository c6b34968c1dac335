using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using Glowcast.Cli.Commands;

namespace Glowcast.Cli.Showing;

/// <summary>Help that fits the terminal and ends with an example.</summary>
/// <param name="isAsked">Whether it was asked for; words that were not understood do not matter then.</param>
internal sealed class Help(Terminal terminal, bool isAsked) : SynchronousCommandLineAction
{
    public override bool ClearsParseErrors => isAsked;

    public override int Invoke(ParseResult parseResult)
    {
        using var text = new StringWriter();
        parseResult.InvocationConfiguration.Output = text;
        new HelpAction { MaxWidth = terminal.Width }.Invoke(parseResult);
        foreach (var line in $"{text}".TrimEnd().Split(Environment.NewLine)) terminal.Out.WriteLine(line.TrimEnd());
        var examples = ExamplesOf(parseResult.CommandResult.Command).ToList();
        terminal.Out.WriteLine($"{Environment.NewLine}{(examples.Count == 1 ? "Example" : "Examples")}:");
        foreach (var example in examples) terminal.Out.WriteLine(example);
        return CommandLine.Answered;
    }

    /// <summary>A command's own; those of the commands it leads to; of the whole program the way in.</summary>
    private static IEnumerable<string> ExamplesOf(Command command) => command switch
    {
        AnswerCommand { Example: var example } => [example],
        RootCommand => ["glowcast demo", "glowcast forecast --help"],
        _ => command.Subcommands.SelectMany(ExamplesOf),
    };
}
