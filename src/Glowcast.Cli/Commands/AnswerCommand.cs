using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Showing;
using Glowcast.Server.Answers;

namespace Glowcast.Cli.Commands;

/// <summary>A command that asks the engine one thing and says the answer: to be read, or as one JSON object.</summary>
internal abstract class AnswerCommand(string name, string description, string example, Terminal terminal)
    : QuestionCommand(name, description, example, terminal)
{
    private readonly Option<bool> json = new("--json") { Description = "Print one JSON object, and nothing else." };

    /// <summary>Takes these options, and <c>--json</c>.</summary>
    protected new void Takes(params ReadOnlySpan<Option> options)
    {
        base.Takes(options);
        base.Takes(json);
    }

    protected override Task AnswerAsync(Question asked, CancellationToken cancel)
    {
        Answer(asked, cancel);
        return Task.CompletedTask;
    }

    /// <inheritdoc cref="QuestionCommand.AnswerAsync"/>
    protected abstract void Answer(Question asked, CancellationToken cancel);

    /// <param name="write">Writes the answer where it is to be read.</param>
    protected void Reply<T>(Question asked, T answer, Action<Page> write)
    {
        if (asked.Flag(json)) Terminal.Out.WriteLine(AnswerJson.Write(answer));
        else Page.Show(Terminal, write);
    }
}
