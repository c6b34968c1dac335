using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Server.Grids;
using Glowcast.Server.Notes;
using Glowcast.Server.Problems;
using Glowcast.Server.Store;
using Microsoft.Extensions.Caching.Memory;

namespace Glowcast.Server.Forecasts;

/// <summary>Answers posted plans, one after another since each keeps all processors busy, and remembers the answers.</summary>
internal sealed partial class ForecastDesk(ServerOptions options, GridShelf grids, NoteBook notes, ICache cache, ILogger<ForecastDesk> log) : IDisposable
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
        var plan = await PostedPlan.ReadAsync(json.RootElement, PlanNeeds.Forecast, grids, faults, cancel);
        var place = plan.Lookout!.Point;
        var said = await notes.SayAsync(place.LatitudeDeg, place.LongitudeDeg, cancel);
        var address = ForecastAddress.Of(json.RootElement, plan.Grids.Select(grids.FingerprintOf), said);
        if (await FindAsync(address, ForecastParts.Bare, cancel) is not null) return address;
        using var turn = await turns.TakeAsync(cancel);
        if (await FindAsync(address, ForecastParts.Bare, cancel) is null) await WorkOutAsync(address, plan, said, cancel);
        return address;
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
        var ground = await grids.JoinAsync(plan.Grids, plan.FillHoles, cancel);
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        limit.CancelAfter(options.LongestForecast);
        Dictionary<string, byte[]> parts;
        try
        {
            parts = await Task.Run(() => ForecastParts.Of(address, Forecaster.Forecast(plan, ground, cancel: limit.Token), said), limit.Token);
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            throw new TooMuchException($"The forecast takes longer than {options.LongestForecast.TotalSeconds:0} s, which is all this service gives to one; narrow the span or give fewer grids.");
        }
        foreach (var (key, content) in parts) Remember(key, content);
        try
        {
            await cache.KeepAsync(parts, cancel);
        }
        catch (Exception full) when (FullDisk.Is(full))
        {
            NotCached(log, address);
        }
    }

    private byte[] Remember(string key, byte[] content) => remembered.Set(key, content, new MemoryCacheEntryOptions { Size = content.Length });

    [LoggerMessage(Level = LogLevel.Warning, Message = "The disk is full: forecast {Address} was answered but not cached")]
    private static partial void NotCached(ILogger log, string address);
}
