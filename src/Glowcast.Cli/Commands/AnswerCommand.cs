using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Showing;
using Glowcast.Server.Answers;

namespace Glowcast.Cli.Commands;

/// <summary>A command that asks the engine one thing and says the answer: to be read, or as one JSON object.</summary>
internal abstract class AnswerCommand : Command
{
    private readonly Option<bool> json = new("--json") { Description = "Print one JSON object, and nothing else." };

    /// <param name="description">A sentence or two, then an example on a line of its own.</param>
    protected AnswerCommand(string name, string description, string example, Terminal terminal) : base(name, $"{description}\n  {example}")
    {
        Terminal = terminal;
        SetAction((parsed, cancel) => AnswerAsync(new Question(parsed, parsed.GetValue(json)), cancel));
    }

    protected Terminal Terminal { get; }

    protected void Takes(params Option[] options)
    {
        foreach (var option in options) Options.Add(option);
        Options.Add(json);
    }

    protected virtual Task AnswerAsync(Question asked, CancellationToken cancel)
    {
        Answer(asked, cancel);
        return Task.CompletedTask;
    }

    /// <exception cref="Engine.Measures.BadInputException">Something asked cannot be answered.</exception>
    protected abstract void Answer(Question asked, CancellationToken cancel);

    /// <param name="write">Writes the answer where it is to be read.</param>
    protected void Reply<T>(Question asked, T answer, Action<Page> write)
    {
        if (asked.WantsJson)
        {
            Terminal.Out.WriteLine(AnswerJson.Write(answer));
            return;
        }
        var page = new Page(Terminal);
        write(page);
        page.Finish();
    }
}
