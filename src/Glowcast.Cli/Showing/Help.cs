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
        if (parseResult.CommandResult.Command is QuestionCommand { Example: var example })
            terminal.Out.WriteLine($"{Environment.NewLine}Example:{Environment.NewLine}{example}");
        return CommandLine.Answered;
    }
}
