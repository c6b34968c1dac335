using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Server.Answers;

namespace Glowcast.Cli.Commands;

/// <summary>The terrain horizon of a point in one direction.</summary>
internal sealed class HorizonCommand : GridAnswerCommand
{
    private readonly Option<string[]> latitude = Ask.Latitude();
    private readonly Option<string[]> longitude = Ask.Longitude();
    private readonly Option<string[]> azimuth = Ask.For("--azimuth", "degrees", "True bearing to look along.");
    private readonly Option<string[]> eye = Ask.For("--eye", "metres", "Above the ground. Default 0.");

    public HorizonCommand(Terminal terminal) : base(
        "horizon", "How high the ground stands around a point, in one direction.",
        "glowcast horizon --grid N44W072.hgt --latitude 44.5 --longitude -71 --azimuth 90", terminal) =>
        Takes(Grids, latitude, longitude, azimuth, eye, Within, FillHoles, Beyond, HighestBeyond, RefractionK);

    protected override void Answer(Question asked, CancellationToken cancel)
    {
        var point = GeoPoint.FromDegrees(asked.Number(latitude, -90, 90), asked.Number(longitude, -180, 180));
        var grid = ReadGrids(asked, point);
        var bearing = asked.Required(azimuth, "a true bearing in degrees such as 245", Written.Bearing);
        var above = Length.FromMetres(asked.Number(eye, 0, 1000, 0));
        var model = ReadSight(asked, SightModel.Usual);
        asked.Faults.ThrowIfAny();
        var place = Ground.At(grid!, point, "--latitude, --longitude", above);
        var horizon = HorizonAnswer.Of(grid!, model, place, bearing);
        Reply(asked, horizon, page =>
        {
            page.Title($"Horizon of {point}, {Say.Metres(place.Height)}, towards {bearing}");
            page.Facts(
                ("horizon", horizon.HorizonDeg is { } angle ? $"{angle:0.0000}°" : "none: nothing stands there"),
                ("stands at", horizon.DistanceM is { } distance ? $"{Say.Distance(distance)}{WhatStands(horizon, distance)}" : null),
                ("grid's edge", horizon.BeyondGrid.EdgeDistanceM is { } edge ? Say.Distance(edge) : null),
                ("unknown", horizon.BeyondGrid.CouldMatter is true ? "ground past the grid's edge could stand higher; add the next grid to be sure" : null));
            page.Paragraph(Say.Sight(model));
        });
    }

    private static string WhatStands(HorizonAnswer horizon, double distanceM) =>
        distanceM > horizon.BeyondGrid.EdgeDistanceM ? ", the smooth earth assumed past the grid's edge" : "";
}
