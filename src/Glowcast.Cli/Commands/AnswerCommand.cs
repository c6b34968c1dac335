using Glowcast.Cli.Asking;

namespace Glowcast.Cli.Commands;

/// <summary>A command that asks the engine one thing, says the answer, and is done.</summary>
internal abstract class AnswerCommand(string name, string description, string example, Terminal terminal)
    : JsonCommand(name, description, example, terminal)
{
    protected override Task AnswerAsync(Question asked, CancellationToken cancel)
    {
        Answer(asked, cancel);
        return Task.CompletedTask;
    }

    /// <inheritdoc cref="QuestionCommand.AnswerAsync"/>
    protected abstract void Answer(Question asked, CancellationToken cancel);
}
