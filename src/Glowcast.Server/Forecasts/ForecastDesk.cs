using System.Diagnostics;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Server.Grids;
using Glowcast.Server.Notes;
using Glowcast.Server.Problems;
using Glowcast.Server.Store;
using Glowcast.Server.Telemetry;
using Microsoft.Extensions.Caching.Memory;

namespace Glowcast.Server.Forecasts;

/// <summary>Answers posted plans, one after another since each keeps all processors busy, and remembers the answers.</summary>
internal sealed partial class ForecastDesk(ServerOptions options, PostedPlans plans, GridShelf grids, NoteBook notes, HorizonShelf horizons, ICache cache, ILogger<ForecastDesk> log)
    : IDisposable
{
    private const long MostRememberedBytes = 64 << 20;

    private readonly MemoryCache remembered = new(new MemoryCacheOptions { SizeLimit = MostRememberedBytes });
    private readonly Turns turns = new(1, options.MostWaitingForecasts);

    /// <summary>Works the forecast of a plan out, unless it is known.</summary>
    /// <param name="faults">Faults of the request found before.</param>
    /// <returns>Its address.</returns>
    /// <exception cref="BadInputException">Something in the plan is wrong; names every field.</exception>
    /// <exception cref="TooBusyException">Too many others wait.</exception>
    /// <exception cref="TooMuchException">It takes longer than a forecast may.</exception>
    /// <exception cref="OperationCanceledException">The client no longer waits.</exception>
    public async Task<string> AnswerAsync(byte[] planJson, Faults faults, CancellationToken cancel)
    {
        using var json = PlanText.Parse(planJson);
        var (plan, sounding) = await plans.ReadAsync(json.RootElement, PlanNeeds.Forecast, faults, cancel);
        var place = plan.Lookout!.Point;
        var said = await notes.SayAsync(place.LatitudeDeg, place.LongitudeDeg, cancel);
        var address = ForecastAddress.Of(json.RootElement, sounding.Text, plan.Grids.Select(grids.FingerprintOf), said);
        var isKnown = await FindAsync(address, ForecastParts.Bare, cancel) is not null;
        Measured.Forecasts.Add(1, new KeyValuePair<string, object?>("remembered", isKnown));
        if (isKnown) return address;
        using var turn = await turns.TakeAsync(cancel);
        if (await FindAsync(address, ForecastParts.Bare, cancel) is null) await WorkOutAsync(address, plan, said, cancel);
        return address;
    }

    /// <summary>The forecast of a plan itself, for what an answer does not hold.</summary>
    /// <exception cref="BadInputException">Something in the plan is wrong; names every field.</exception>
    public async Task<LightForecast> ForecastAsync(byte[] planJson, Faults faults, CancellationToken cancel)
    {
        using var json = PlanText.Parse(planJson);
        var (plan, _) = await plans.ReadAsync(json.RootElement, PlanNeeds.Forecast, faults, cancel);
        using var turn = await turns.TakeAsync(cancel);
        return await WithinLimitAsync(plan, forecast => forecast, cancel);
    }

    /// <summary>A part of a forecast that was worked out; null where it is not known, or has no such part.</summary>
    public async Task<byte[]?> FindAsync(string address, string part, CancellationToken cancel)
    {
        var key = ForecastParts.Key(address, part);
        if (remembered.TryGetValue(key, out byte[]? content)) return content;
        content = await cache.FindAsync(key, cancel);
        return content is null ? null : Remember(key, content);
    }

    public void Dispose()
    {
        remembered.Dispose();
        turns.Dispose();
    }

    private async Task WorkOutAsync(string address, Plan plan, FieldNotesAnswer? said, CancellationToken cancel)
    {
        using var span = Measured.Spans.StartActivity("forecast");
        var started = Stopwatch.GetTimestamp();
        var parts = await WithinLimitAsync(plan, forecast => ForecastParts.Of(address, forecast, said), cancel);
        Measured.ForecastSeconds.Record(Stopwatch.GetElapsedTime(started).TotalSeconds);
        foreach (var (key, content) in parts) Remember(key, content);
        try
        {
            await cache.KeepAsync(parts, cancel);
        }
        catch (Exception refused) when (FullDisk.Is(refused) || refused is DamagedException)
        {
            NotCached(log, address);
        }
    }

    private async Task<T> WithinLimitAsync<T>(Plan plan, Func<LightForecast, T> use, CancellationToken cancel)
    {
        var ground = await grids.JoinAsync(plan.Grids, plan.FillHoles, cancel);
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        limit.CancelAfter(options.LongestForecast);
        try
        {
            return await Task.Run(() => use(Forecaster.Forecast(plan, ground, horizons, cancel: limit.Token)), limit.Token);
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            throw new TooMuchException($"The forecast takes longer than {options.LongestForecast.TotalSeconds:0} s, which is all this service gives to one; narrow the span or give fewer grids.");
        }
    }

    private byte[] Remember(string key, byte[] content) => remembered.Set(key, content, new MemoryCacheEntryOptions { Size = content.Length });

    [LoggerMessage(Level = LogLevel.Warning, Message = "The disk is full or the database damaged: forecast {Address} was answered but not cached")]
    private static partial void NotCached(ILogger log, string address);
}
