using System.Text.Json;
using System.Text.Json.Nodes;
using Glowcast.Engine.Forecast;
using Glowcast.Server.Tests;

namespace Glowcast.Field.Tests;

/// <summary>Forecasts of the made valley, each worked out once.</summary>
internal static class Forecasts
{
    private static readonly Lazy<LightForecast> Usual = new(() => Of(_ => { }));
    private static readonly Lazy<LightForecast> Long = new(() => Of(plan => (plan["set"]!["repeats"], plan["set"]!["settleS"]) = (50, 60)));
    private static readonly Lazy<LightForecast> Dark = new(() => Of(plan => plan["span"]!["ridgeFromKm"] = 60));
    private static readonly Lazy<LightForecast> Sea = new(() => Of(plan => plan["conditions"] = new JsonObject { ["deckTopM"] = 900 }));

    private static readonly Lazy<LightForecast> Full = new(() => Of(plan =>
    {
        plan["set"] = new JsonObject { ["rows"] = 3, ["repeats"] = 50, ["settleS"] = 60, ["clickStopsDeg"] = new JsonArray(5, 7.5, 10), ["bracketShots"] = 3, ["rowOrder"] = "backAndForth" };
        plan["conditions"] = new JsonObject { ["deckTopM"] = 900 };
    }));

    /// <summary>A set with a repeat that fits.</summary>
    public static LightForecast ThatFits => Usual.Value;

    public static LightForecast TooLong => Long.Value;

    /// <summary>No ridge is far enough to count as one.</summary>
    public static LightForecast WithoutLight => Dark.Value;

    /// <summary>The valley floor lies under a sea of cloud.</summary>
    public static LightForecast OverCloud => Sea.Value;

    /// <summary>Whatever makes a card long: a set that does not fit, in three rows of brackets on click stops, over a deck.</summary>
    public static LightForecast WithEverything => Full.Value;

    private static LightForecast Of(Action<JsonObject> change)
    {
        var plan = MadeValley.Plan();
        plan["set"]!["repeats"] = 1;
        change(plan);
        return Forecaster.Forecast(PlanReader.Read(JsonSerializer.SerializeToElement(plan), PlanNeeds.Forecast), MadeValley.Grid);
    }
}
