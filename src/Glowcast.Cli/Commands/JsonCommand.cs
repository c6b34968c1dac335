using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Showing;
using Glowcast.Server.Answers;

namespace Glowcast.Cli.Commands;

/// <summary>A command whose answer is to be read, or is one JSON object.</summary>
internal abstract class JsonCommand(string name, string description, string example, Terminal terminal)
    : QuestionCommand(name, description, example, terminal)
{
    private readonly Option<bool> json = new("--json") { Description = "Print one JSON object, and nothing else." };

    /// <summary>Takes these options, and <c>--json</c>.</summary>
    protected new void Takes(params ReadOnlySpan<Option> options)
    {
        base.Takes(options);
        base.Takes(json);
    }

    protected bool WantsJson(Question asked) => asked.Flag(json);

    /// <param name="write">Writes the answer where it is to be read.</param>
    protected void Reply<T>(Question asked, T answer, Action<Page> write)
    {
        if (WantsJson(asked)) Terminal.Out.WriteLine(AnswerJson.Write(answer));
        else Page.Show(Terminal, write);
    }
}
