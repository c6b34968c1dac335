using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Showing;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Server.Answers;

namespace Glowcast.Cli.Commands;

/// <summary>What stands in a span of bearings.</summary>
internal sealed class SkylineCommand : GridAnswerCommand
{
    private readonly Option<string[]> latitude = Ask.Latitude();
    private readonly Option<string[]> longitude = Ask.Longitude();
    private readonly Option<string[]> span = Ask.For("--span", "from..to", "Two true bearings, clockwise: 245..330; may cross north: 350..10.");
    private readonly Option<string[]> eye = Ask.For("--eye", "metres", "Above the ground. Default 1.7.");
    private readonly Option<string[]> step = Ask.For("--step", "degrees", "Between bearings. Default 0.25.");
    private readonly Option<bool> ascii = Ask.Ascii();

    public SkylineCommand(Terminal terminal) : base(
        "skyline", "What stands highest in a span of bearings, and how far it is.",
        "glowcast skyline --grid N44W072.hgt --latitude 44.5 --longitude -71 --span 0..90", terminal) =>
        Takes(Grids, latitude, longitude, span, eye, step, Within, FillHoles, HighestBeyond, RefractionK, ascii);

    protected override void Answer(Question asked, CancellationToken cancel)
    {
        var point = GeoPoint.FromDegrees(asked.Number(latitude, -90, 90), asked.Number(longitude, -180, 180));
        var grid = ReadGrids(asked, point);
        var bearings = asked.Required(span, "two true bearings, clockwise, such as 245..330", Written.Span);
        var above = Length.FromMetres(asked.Number(eye, 0, 1000, 1.7));
        var apart = asked.Number(step, 0.01, 90, 0.25);
        var model = ReadSight(asked, SightModel.Usual);
        asked.Faults.ThrowIfAny();
        var place = Ground.At(grid!, point, "--latitude, --longitude", above);
        var columns = Math.Max(1, (int)Math.Round(bearings!.Width.Degrees / apart));
        var view = VisibleSurface.From(grid!, model, place, bearings, columns);
        Reply(asked, SkylineAnswer.Of(view, model), page =>
        {
            page.Title($"Skyline from {point}, eye at {Say.Metres(place.Height)}, {bearings}");
            SkylinePicture.Write(page, grid!, model, view, isAscii: asked.Flag(ascii) || !Terminal.OutIsScreen);
            page.Paragraph($"The highest in each {SkylineRows.StepDeg(view):0.##}°:");
            page.Table(["true bearing", ">altitude", ">distance", ">height", "where"], SkylineRows.Of(view));
            var edges = view.Columns.Select(column => column.GridEdge.Metres).ToList();
            page.Paragraph($"--json prints all {columns} bearings. Taken: refraction k = {model.RefractionK}; ground of the grid only, which ends {Say.Distance(edges.Min())} to {Say.Distance(edges.Max())} away.");
        });
    }
}
