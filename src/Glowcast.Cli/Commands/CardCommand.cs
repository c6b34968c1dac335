using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Field.Card;
using Glowcast.Field.Exports;
using Glowcast.Server.Answers;
using NodaTime;

namespace Glowcast.Cli.Commands;

/// <summary>What a forecast becomes to be taken along: the field card, a calendar event, waypoints, pictures.</summary>
internal sealed class CardCommand : PlanCommand
{
    private readonly Option<string[]> file = Ask.For(
        "--out", "file", $"Where to write it; its name says what: {string.Join(", ", FieldFormat.All.Select(format => $"{format.Extension} {format.Description}"))}.");

    private readonly Option<string[]> declination = Ask.For(
        "--declination", "degrees", "From true north to magnetic north, east positive; stands in for the World Magnetic Model.");

    private readonly Option<string[]> travel = Ask.For("--travel", "minutes", "From the door to the lookout, for the hour to leave. Default 60.");

    public CardCommand(Terminal terminal) : base(
        "card", "The field card of a plan, or its calendar event, waypoints or pictures.", "glowcast card --plan plan.json --out card.html", terminal) =>
        Takes(Plan, file, Date, declination, travel, Grids, Beyond, RefractionK);

    protected override void Answer(Question asked, CancellationToken cancel)
    {
        var path = asked.Required(file, "a file such as card.html", (text, _) => text);
        var format = path is null ? null : asked.Try(() => FormatOf(path, file.Name));
        var target = format is null ? null : OutputFile.Of(asked, file);
        var choices = new CardChoices
        {
            Travel = Duration.FromMinutes(asked.Number(travel, 0, 2880, 60)),
            MagneticDeclination = asked.NumberOrNone(declination, -180, 180) is { } degrees ? Angle.FromDegrees(degrees) : null,
        };
        var forecast = Forecast(asked, PlanNeeds.Forecast, cancel);
        var bytes = FieldFile.Write(forecast, choices, format!, SystemClock.Instance.GetCurrentInstant());
        target!.Write(bytes);
        Reply(asked, new CardAnswer(path!, format!.MediaType, bytes.Length, forecast.Fit!.Verdict, forecast.WhyNone), page =>
        {
            page.Line($"{path}: {format.Description}, {bytes.Length / 1000.0:0} kB");
            page.Paragraph(forecast.WhyNone is { } why ? $"No light. {why}" : FitWords.Verdict(forecast.Fit));
        });
    }

    private static FieldFormat FormatOf(string path, string field) => FieldFormat.Of(Path.GetExtension(path))
        ?? throw new BadInputException(field, $"Must end in one of {string.Join(", ", FieldFormat.All.Select(format => format.Extension))}; got '{path}'.");
}
