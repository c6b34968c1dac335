using System.Text.Json;
using System.Text.Json.Nodes;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;

namespace Glowcast.Server.Kept;

/// <summary>A kind of thing that users keep: where it is found, and how it is checked.</summary>
/// <param name="Path">Of its collection, such as "lookouts".</param>
/// <param name="Field">Of the thing itself, beside its name.</param>
/// <param name="Check">Makes a plan of the thing, which the plan's reader judges.</param>
/// <param name="Needs">What that plan must have.</param>
internal sealed record DocumentKind(string Path, string Field, Func<JsonNode?, JsonObject> Check, PlanNeeds Needs, string Within)
{
    public static DocumentKind Lookouts { get; } =
        new("lookouts", "lookout", lookout => new JsonObject { ["lookout"] = lookout, ["grids"] = new JsonArray("any"), ["span"] = AnySpan() }, PlanNeeds.Lookout, "");

    public static DocumentKind Gear { get; } = new("gear", "gear", WithSpan, PlanNeeds.Gear, "gear.");

    public static DocumentKind Plans { get; } = new("plans", "plan", plan => plan as JsonObject ?? [], PlanNeeds.Nothing, "plan.");

    /// <summary>Notes everything that is wrong with such a thing, under its fields.</summary>
    public void Judge(JsonElement thing, Faults faults)
    {
        if (thing.ValueKind != JsonValueKind.Object)
        {
            faults.Add(Field, "Must be an object in braces.");
            return;
        }
        try
        {
            PlanReader.Read(JsonSerializer.SerializeToElement(Check(JsonObject.Create(thing))), Needs);
        }
        catch (BadInputException bad)
        {
            foreach (var fault in bad.Faults) faults.Add(Within + fault.Field, fault.Message);
        }
    }

    private static JsonObject WithSpan(JsonNode? gear)
    {
        var plan = gear as JsonObject ?? [];
        plan.TryAdd("span", AnySpan());
        return plan;
    }

    private static JsonObject AnySpan() => new() { ["fromDeg"] = 0, ["toDeg"] = 30 };
}
