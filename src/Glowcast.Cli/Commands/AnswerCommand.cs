using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Showing;
using Glowcast.Server.Answers;

namespace Glowcast.Cli.Commands;

/// <summary>A command that is asked something and answers, to be read or as one JSON object.</summary>
internal abstract class AnswerCommand : Command
{
    private readonly Option<bool> json = new("--json") { Description = "Print one JSON object, and nothing else." };

    /// <param name="description">A sentence.</param>
    /// <param name="example">A line to try.</param>
    protected AnswerCommand(string name, string description, string example, Terminal terminal) : base(name, description)
    {
        (Example, Terminal) = (example, terminal);
        SetAction((parsed, cancel) => AnswerAsync(new Question(parsed), cancel));
    }

    public string Example { get; }

    protected Terminal Terminal { get; }

    /// <summary>Takes these options, and <c>--json</c>.</summary>
    protected void Takes(params ReadOnlySpan<Option> options)
    {
        foreach (var option in options) Options.Add(option);
        Options.Add(json);
    }

    protected bool WantsJson(Question asked) => asked.Flag(json);

    /// <param name="write">Writes the answer where it is to be read.</param>
    protected void Reply<T>(Question asked, T answer, Action<Page> write)
    {
        if (WantsJson(asked)) Terminal.Out.WriteLine(AnswerJson.Write(answer));
        else Page.Show(Terminal, write);
    }

    /// <exception cref="Engine.Measures.BadInputException">Something asked cannot be answered.</exception>
    protected virtual Task AnswerAsync(Question asked, CancellationToken cancel)
    {
        Answer(asked, cancel);
        return Task.CompletedTask;
    }

    /// <summary>For a command that asks the engine one thing and is done; others answer in <see cref="AnswerAsync"/>.</summary>
    /// <inheritdoc cref="AnswerAsync"/>
    protected virtual void Answer(Question asked, CancellationToken cancel) => throw new InvalidOperationException($"'{Name}' answers nothing.");
}
