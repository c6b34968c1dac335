using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Showing;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Server.Answers;

namespace Glowcast.Cli.Commands;

/// <summary>Direct light over a day: on one point, or on the span of a plan.</summary>
internal sealed class LightCommand : PlanCommand
{
    private readonly Option<string[]> target = Ask.For("--target", "lat,lon", "A point of the ground; needs --grid and --date.");
    private readonly Option<string[]> zone = Ask.TimeZone();
    private readonly Option<string[]> chart = Ask.For("--chart", "file", "With --plan: write the light of every minute and bearing to a file that ends in .json.");
    private readonly Option<bool> ascii = Ask.Ascii();

    public LightCommand(Terminal terminal) : base(
        "light", "When the sun reaches a point of the ground, or the ridge of a plan.",
        "glowcast light --plan plan.json", terminal) =>
        Takes(target, Plan, Grids, Date, zone, chart, Within, FillHoles, Beyond, HighestBeyond, RefractionK, ascii);

    protected override void Answer(Question asked, CancellationToken cancel)
    {
        if (asked.Has(target) == asked.Has(Plan)) asked.Faults.Add(target.Name, "Give either --target for one point, such as 44.2706,-71.3033, or --plan for a ridge.");
        asked.Faults.ThrowIfAny();
        if (asked.Has(Plan)) AnswerPlan(asked, cancel);
        else AnswerTarget(asked);
    }

    private void AnswerTarget(Question asked)
    {
        asked.Refuse(chart, "Belongs to --plan: a chart has the bearings of a span.");
        var point = asked.Optional(target, Written.Point);
        var grid = ReadGrids(asked, point);
        var date = asked.Required(Date, "a date such as 2026-02-14", TimeReader.Date);
        var local = asked.Optional(zone, TimeReader.Zone);
        var model = ReadSight(asked, SightModel.Usual);
        asked.Faults.ThrowIfAny();
        var ground = Ground.At(grid!, point, target.Name);
        var light = DirectLight.On(ground, grid!, model, SunTrack.Over(LocalDay.Of(date, point, local)));
        Reply(asked, TargetLightAnswer.Of(light, model, local), page =>
        {
            page.Title($"Direct light on {point}, {Say.Metres(ground.Height)}, on {Say.Day(date, local)}");
            TargetLightTable.Write(page, light, new Clock(date, local));
            page.Paragraph(Say.Sight(model));
        });
    }

    private void AnswerPlan(Question asked, CancellationToken cancel)
    {
        asked.Refuse(zone, "Belongs to --target; a plan says its own, as lookout.timeZone.");
        var file = OutputFile.Of(asked, chart, ".json");
        var forecast = Forecast(asked, PlanNeeds.Light, cancel);
        if (ChartFileAnswer.Of(forecast) is { } layers) file?.Write(writer => writer.WriteLine(AnswerJson.Write(layers)));
        else if (file is not null) Terminal.Tell($"There is no chart that day, and no file: {forecast.WhyNone}");
        Reply(asked, SpanLightAnswer.Of(forecast), page =>
        {
            ForecastPage.WriteTitle(page, "Light on the ridge", forecast);
            ForecastPage.WriteWindows(page, forecast);
            PictureTable.Write(page, forecast);
            if (forecast.Chart is { } light)
                LightChartPicture.Write(page, light, forecast.Windows, ForecastPage.ClockOf(forecast), asked.Flag(ascii) || !Terminal.OutIsScreen);
            ForecastPage.WriteAssumptions(page, forecast);
        });
    }
}
