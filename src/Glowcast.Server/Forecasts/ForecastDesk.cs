using System.Security.Cryptography;
using System.Text.Json;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Server.Answers;
using Microsoft.Extensions.Caching.Memory;

namespace Glowcast.Server.Forecasts;

/// <summary>Answers posted plans, one after another since each keeps all processors busy, and remembers the last answers:
/// a forecast is a pure function of plan and grids, and the grids of a service do not change. Horizons are remembered too, for
/// the next date of the same plan.</summary>
internal sealed class ForecastDesk(GridShelf grids) : IDisposable
{
    private const long MostRememberedBytes = 32 << 20;

    private readonly MemoryCache answers = new(new MemoryCacheOptions { SizeLimit = MostRememberedBytes });
    private readonly HorizonShelf horizons = new();
    private readonly SemaphoreSlim turn = new(1);

    /// <summary>The answer as JSON in UTF-8.</summary>
    /// <param name="faults">Faults of the request found before.</param>
    /// <exception cref="BadInputException">Something in the plan is wrong; names every field.</exception>
    /// <exception cref="OperationCanceledException">The client no longer waits.</exception>
    public async Task<byte[]> AnswerAsync(byte[] planJson, bool withPictures, Faults faults, CancellationToken cancel)
    {
        var key = $"{Convert.ToHexString(SHA256.HashData(planJson))} {withPictures}";
        if (!faults.Any && answers.TryGetValue(key, out byte[]? remembered)) return remembered!;
        var plan = PostedPlan.Read(planJson, grids, faults);
        await turn.WaitAsync(cancel);
        try
        {
            var answer = await Task.Run(() => Answer(plan, withPictures, cancel), cancel);
            return answers.Set(key, answer, new MemoryCacheEntryOptions { Size = answer.Length });
        }
        finally
        {
            turn.Release();
        }
    }

    public void Dispose()
    {
        answers.Dispose();
        turn.Dispose();
    }

    private byte[] Answer(Plan plan, bool withPictures, CancellationToken cancel)
    {
        var forecast = Forecaster.Forecast(plan, grids.Join(plan.Grids), horizons, cancel: cancel);
        return JsonSerializer.SerializeToUtf8Bytes(ForecastAnswer.Of(forecast, withPictures), AnswerJson.Options);
    }
}
