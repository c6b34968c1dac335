using System.Text.Json;
using Glowcast.Engine.Forecast;
using Glowcast.Server.Answers;
using Glowcast.Server.Grids;

namespace Glowcast.Server.Jobs;

/// <summary>The days of a range, ranked.</summary>
internal sealed class SeasonJob(GridShelf grids) : IJobKind
{
    public const string Kind = "season";

    public string Name => Kind;

    public async Task<byte[]> DoAsync(string request, IProgress<double> progress, CancellationToken cancel)
    {
        using var json = PlanText.Parse(System.Text.Encoding.UTF8.GetBytes(request), "body");
        var asked = await SeasonRequest.ReadAsync(json.RootElement, grids, cancel);
        var ground = await grids.JoinAsync(asked.Plan.Grids, cancel);
        var days = Forecaster.Season(asked.Plan, ground, asked.From, asked.To, progress: progress, cancel: cancel);
        return JsonSerializer.SerializeToUtf8Bytes(SeasonAnswer.Of(days, asked.Plan.Lookout!.Zone), AnswerJson.Options);
    }

    public void Release(string request)
    {
    }
}
