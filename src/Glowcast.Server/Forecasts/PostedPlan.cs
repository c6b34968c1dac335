using System.Text.Json;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Server.Grids;
using Glowcast.Server.Kept;

namespace Glowcast.Server.Forecasts;

/// <summary>A plan as a client sends it: as in a file, but its grids are ids of this service, and its sounding is one or the text itself.</summary>
/// <param name="Sounding">That it names.</param>
internal sealed record PostedPlan(Plan Plan, NamedSounding Sounding);

/// <summary>Reads plans that are posted.</summary>
internal sealed class PostedPlans(GridShelf grids, KeptSoundings soundings)
{
    /// <param name="json">Parsed by <see cref="PlanText"/>.</param>
    /// <param name="faults">Faults of the request found before; they are said together with the plan's.</param>
    /// <exception cref="BadInputException">Something in it is missing or wrong; names every field.</exception>
    public async Task<PostedPlan> ReadAsync(JsonElement json, PlanNeeds needs, Faults faults, CancellationToken cancel)
    {
        var sounding = await soundings.NamedInAsync(json, cancel);
        Plan? plan = null;
        try
        {
            plan = PlanReader.Read(json, needs, sounding.Read);
        }
        catch (BadInputException bad)
        {
            foreach (var fault in bad.Faults) faults.Add(fault.Field, fault.Message);
        }
        await grids.CheckAsync(GridIds(json), faults, cancel);
        faults.ThrowIfAny();
        return new PostedPlan(plan!, sounding);
    }

    private static IEnumerable<string> GridIds(JsonElement plan) =>
        plan.ValueKind == JsonValueKind.Object && plan.TryGetProperty("grids", out var ids) && ids.ValueKind == JsonValueKind.Array
            ? ids.EnumerateArray().Where(id => id.ValueKind == JsonValueKind.String).Select(id => id.GetString()!)
            : [];
}
