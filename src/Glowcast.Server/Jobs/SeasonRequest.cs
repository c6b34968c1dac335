using System.Text.Json;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Server.Forecasts;
using NodaTime;

namespace Glowcast.Server.Jobs;

/// <summary>A plan, and the days to look at.</summary>
internal sealed record SeasonRequest(Plan Plan, LocalDate From, LocalDate To)
{
    private static readonly string[] Known = ["plan", "from", "to"];

    /// <exception cref="BadInputException">Something is missing or wrong; names every field.</exception>
    public static async Task<SeasonRequest> ReadAsync(JsonElement body, PostedPlans plans, CancellationToken cancel)
    {
        if (body.ValueKind != JsonValueKind.Object) throw new BadInputException("body", "Must be a JSON object in braces.");
        var faults = new Faults();
        foreach (var field in body.EnumerateObject().Where(field => !Known.Contains(field.Name)))
            faults.Add(Shortened.To80(field.Name), $"Is not known; here stand {string.Join(", ", Known)}.");
        var (from, to) = (Date(body, "from", faults), Date(body, "to", faults));
        if (from is { } first && to is { } last && (last < first || Period.DaysBetween(first, last) >= Season.MostDays))
            faults.Add("to", $"Must be the same day as from or up to five years later; got {first:uuuu-MM-dd} to {last:uuuu-MM-dd}.");
        var plan = await ReadPlanAsync(body, plans, faults, cancel);
        faults.ThrowIfAny();
        return new SeasonRequest(plan!, from!.Value, to!.Value);
    }

    private static async Task<Plan?> ReadPlanAsync(JsonElement body, PostedPlans plans, Faults faults, CancellationToken cancel)
    {
        var ofPlan = new Faults();
        if (!body.TryGetProperty("plan", out var plan)) faults.Add("plan", "Is missing; give a plan, as for a forecast.");
        else
        {
            try
            {
                return (await plans.ReadAsync(plan, PlanNeeds.Lookout, ofPlan, cancel)).Plan;
            }
            catch (BadInputException bad)
            {
                foreach (var fault in bad.Faults) faults.Add(fault.Field == "plan" ? "plan" : $"plan.{fault.Field}", fault.Message);
            }
        }
        return null;
    }

    private static LocalDate? Date(JsonElement body, string name, Faults faults)
    {
        try
        {
            if (!body.TryGetProperty(name, out var value)) throw new BadInputException(name, "Is missing; give a date such as 2026-02-14.");
            return TimeReader.Date(value.ValueKind == JsonValueKind.String ? value.GetString()! : value.GetRawText(), name);
        }
        catch (BadInputException bad)
        {
            faults.Add(name, bad.Faults[0].Message);
            return null;
        }
    }
}
