using System.Text.Json;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Server.Grids;

namespace Glowcast.Server.Forecasts;

/// <summary>A plan as a client sends it: as in a file, but its grids are ids of this service.</summary>
internal static class PostedPlan
{
    /// <param name="json">Parsed by <see cref="PlanText"/>.</param>
    /// <param name="faults">Faults of the request found before; they are said together with the plan's.</param>
    /// <exception cref="BadInputException">Something in it is missing or wrong; names every field.</exception>
    public static async Task<Plan> ReadAsync(JsonElement json, PlanNeeds needs, GridShelf grids, Faults faults, CancellationToken cancel)
    {
        Plan? plan = null;
        try
        {
            plan = PlanReader.Read(json, needs);
        }
        catch (BadInputException bad)
        {
            foreach (var fault in bad.Faults) faults.Add(fault.Field, fault.Message);
        }
        await grids.CheckAsync(GridIds(json), faults, cancel);
        faults.ThrowIfAny();
        return plan!;
    }

    private static IEnumerable<string> GridIds(JsonElement plan) =>
        plan.ValueKind == JsonValueKind.Object && plan.TryGetProperty("grids", out var ids) && ids.ValueKind == JsonValueKind.Array
            ? ids.EnumerateArray().Where(id => id.ValueKind == JsonValueKind.String).Select(id => id.GetString()!)
            : [];
}
