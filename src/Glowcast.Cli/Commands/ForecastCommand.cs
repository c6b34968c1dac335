using Glowcast.Cli.Asking;
using Glowcast.Cli.Showing;
using Glowcast.Engine.Forecast;
using Glowcast.Server.Answers;

namespace Glowcast.Cli.Commands;

/// <summary>The whole job: the windows of light, the set, and whether the one fits into the other.</summary>
internal sealed class ForecastCommand : PlanCommand
{
    public ForecastCommand(Terminal terminal) : base(
        "forecast", "The whole job: windows of light, the set, whether it fits, and when to start.", "glowcast forecast --plan plan.json", terminal) =>
        Takes(Plan, Grids, Date, Within, FillHoles, Beyond, HighestBeyond, RefractionK);

    protected override void Answer(Question asked, CancellationToken cancel)
    {
        var forecast = Forecast(asked, PlanNeeds.Forecast, cancel);
        Reply(asked, ForecastAnswer.Of(forecast, withPictures: false), page => ForecastPage.Write(page, forecast));
    }
}
