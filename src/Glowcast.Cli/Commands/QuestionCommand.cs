using System.CommandLine;
using Glowcast.Cli.Asking;

namespace Glowcast.Cli.Commands;

/// <summary>A command that is asked something.</summary>
internal abstract class QuestionCommand : Command
{
    /// <param name="description">A sentence.</param>
    /// <param name="example">A line to try.</param>
    protected QuestionCommand(string name, string description, string example, Terminal terminal) : base(name, description)
    {
        (Example, Terminal) = (example, terminal);
        SetAction((parsed, cancel) => AnswerAsync(new Question(parsed), cancel));
    }

    public string Example { get; }

    protected Terminal Terminal { get; }

    protected void Takes(params ReadOnlySpan<Option> options)
    {
        foreach (var option in options) Options.Add(option);
    }

    /// <exception cref="Engine.Measures.BadInputException">Something asked cannot be answered.</exception>
    protected abstract Task AnswerAsync(Question asked, CancellationToken cancel);
}
