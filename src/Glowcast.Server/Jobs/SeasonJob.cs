using System.Text.Json;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Terrain;
using Glowcast.Server.Answers;
using Glowcast.Server.Forecasts;
using Glowcast.Server.Grids;

namespace Glowcast.Server.Jobs;

/// <summary>The days of a range, ranked.</summary>
internal sealed class SeasonJob(PostedPlans plans, GridShelf grids, HorizonShelf horizons) : IJobKind
{
    public const string Kind = "season";

    public string Name => Kind;

    public async Task<byte[]> DoAsync(string request, IProgress<double> progress, CancellationToken cancel)
    {
        using var json = PlanText.Parse(System.Text.Encoding.UTF8.GetBytes(request), "body");
        var asked = await SeasonRequest.ReadAsync(json.RootElement, plans, cancel);
        var site = new SeasonSite("plan", asked.Plan, await grids.JoinAsync(asked.Plan.Grids, asked.Plan.FillHoles, cancel));
        var seasons = SeasonForecast.Of([site], asked.From, asked.To, horizons: horizons, progress: progress, cancel: cancel);
        return JsonSerializer.SerializeToUtf8Bytes(SeasonAnswer.Of(seasons, asked.From, asked.To), AnswerJson.Options);
    }

    public void Release(string request)
    {
    }
}
