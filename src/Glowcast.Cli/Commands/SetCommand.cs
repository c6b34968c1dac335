using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Showing;
using Glowcast.Engine.Forecast;
using Glowcast.Server.Answers;

namespace Glowcast.Cli.Commands;

/// <summary>The frames, the print and the clock of a plan's set; needs no grid and no lookout.</summary>
internal sealed class SetCommand : AnswerCommand
{
    private readonly Option<string[]> plan = Ask.Plan();

    public SetCommand(Terminal terminal) : base(
        "set", "The frames of a plan's set, the print they give, and how long they take.", "glowcast set --plan plan.json", terminal) =>
        Takes(plan);

    protected override void Answer(Question asked, CancellationToken cancel)
    {
        var read = asked.Required(plan, "the file of a plan", (path, field) => PlanFile.Open(path, field).Read(PlanNeeds.Gear));
        asked.Faults.ThrowIfAny();
        var set = PlannedSet.Of(read!);
        Reply(asked, SetAnswer.Of(set), page =>
        {
            page.Title($"The set for {read!.Span}");
            SetFacts.Write(page, set);
            if (read.CentrePitch is null) page.Paragraph("The rows are pitched about the horizontal; a forecast pitches them by the crest.");
        });
    }
}
