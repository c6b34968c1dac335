using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Showing;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Server.Answers;

namespace Glowcast.Cli.Commands;

/// <summary>Whether one point of the ground is visible from another.</summary>
internal sealed class SightCommand : GridAnswerCommand
{
    private readonly Option<string[]> from = Ask.For("--from", "lat,lon", "Where the eye is.");
    private readonly Option<string[]> to = Ask.For("--to", "lat,lon", "The ground looked at.");
    private readonly Option<string[]> eye = Ask.For("--eye", "metres", "Of the eye above the ground. Default 1.7.");

    public SightCommand(Terminal terminal) : base(
        "sight", "Whether a point of the ground is visible from another, and by what margin.",
        "glowcast sight --grid N44W072.hgt --from 44.26,-71.2 --to 44.27,-71.3", terminal) =>
        Takes(Grids, from, to, eye, Within, FillHoles, RefractionK);

    protected override void Answer(Question asked, CancellationToken cancel)
    {
        const string right = "latitude,longitude in degrees such as 44.2592,-71.2025";
        var (start, end) = (asked.Required(from, right, Written.Point), asked.Required(to, right, Written.Point));
        var grid = ReadGrids(asked, start);
        var above = Length.FromMetres(asked.Number(eye, 0, 1000, 1.7));
        var model = ReadSight(asked, SightModel.Usual);
        if (!asked.Faults.Any && start == end) asked.Faults.Add(to.Name, $"Must be another point than --from; both are {start}.");
        asked.Faults.ThrowIfAny();

        Place place = asked.Try(() => Ground.At(grid!, start, from.Name, above));
        asked.Try(() => Ground.At(grid!, end, to.Name));
        asked.Faults.ThrowIfAny();
        var sight = SightAnswer.Of(new SightLines(grid!, model).SightTo(place, end)!.Value, place);
        Reply(asked, sight, page =>
        {
            page.Title($"From {start} to {end}");
            page.Paragraph(sight.Visible ? "Visible." : "Hidden.", sight.Visible ? Tone.Good : Tone.Bad);
            page.Facts(
                ("margin", sight.MarginDeg is { } margin ? $"{margin:+0.0000;-0.0000}° against the highest ground between" : "nothing stands between"),
                ("highest between", sight.HighestBetweenDeg is { } highest ? $"{highest:0.0000}° at {Say.Distance(sight.HighestBetweenM!.Value)}" : null),
                ("target", $"{sight.ApparentAltitudeDeg:0.0000}° high on bearing {sight.BearingDeg:0.00}°, {Say.Distance(sight.DistanceM)} away"),
                ("heights", $"eye {sight.EyeHeightM:0.0} m, target {sight.TargetHeightM:0.0} m"));
            page.Paragraph($"Taken: refraction k = {model.RefractionK}.");
        });
    }
}
