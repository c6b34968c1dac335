using System.Text.Json;
using System.Text.Json.Nodes;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;

namespace Glowcast.Server.Kept;

/// <summary>A kind of thing that users keep: where it is found, and how it is checked.</summary>
/// <param name="Path">Of its collection, such as "lookouts".</param>
/// <param name="Field">Of the thing itself, beside its name.</param>
/// <param name="Shape">Of the thing: an object or a text.</param>
/// <param name="Check">Reads the thing, which may name the sounding, and throws what is wrong with it.</param>
/// <param name="Within">Comes before the fields of the faults.</param>
internal sealed record DocumentKind(string Path, string Field, JsonValueKind Shape, Action<JsonElement, NamedSounding> Check, string Within)
{
    public static DocumentKind Lookouts { get; } =
        OfPlan("lookouts", "lookout", lookout => new JsonObject { ["lookout"] = lookout, ["grids"] = new JsonArray("any"), ["span"] = AnySpan() }, PlanNeeds.Lookout, "");

    public static DocumentKind Gear { get; } = OfPlan("gear", "gear", WithSpan, PlanNeeds.Gear, "gear.");

    public static DocumentKind Plans { get; } = OfPlan("plans", "plan", plan => plan as JsonObject ?? [], PlanNeeds.Nothing, "plan.");

    public static DocumentKind Soundings { get; } = new("soundings", "sounding", JsonValueKind.String, (text, _) => Profile.Read(text.GetString()!, "sounding"), "");

    /// <summary>Notes everything that is wrong with such a thing, under its fields.</summary>
    public void Judge(JsonElement thing, NamedSounding sounding, Faults faults)
    {
        if (thing.ValueKind != Shape)
        {
            faults.Add(Field, Shape == JsonValueKind.Object ? "Must be an object in braces." : "Must be a text.");
            return;
        }
        try
        {
            Check(thing, sounding);
        }
        catch (BadInputException bad)
        {
            foreach (var fault in bad.Faults) faults.Add(Within + fault.Field, fault.Message);
        }
    }

    /// <param name="planOf">Makes a plan of the thing, which the plan's reader judges.</param>
    /// <param name="needs">What that plan must have.</param>
    private static DocumentKind OfPlan(string path, string field, Func<JsonNode?, JsonObject> planOf, PlanNeeds needs, string within) => new(
        path, field, JsonValueKind.Object,
        (thing, sounding) => PlanReader.Read(JsonSerializer.SerializeToElement(planOf(JsonObject.Create(thing))), needs, sounding.Read), within);

    private static JsonObject WithSpan(JsonNode? gear)
    {
        var plan = gear as JsonObject ?? [];
        plan.TryAdd("span", AnySpan());
        return plan;
    }

    private static JsonObject AnySpan() => new() { ["fromDeg"] = 0, ["toDeg"] = 30 };
}
