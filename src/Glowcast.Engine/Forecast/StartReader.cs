using System.Text.Json;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Engine.Forecast;

/// <summary>Reads when a plan means to begin: a time of the clock, or a place in the light.</summary>
internal static class StartReader
{
    private const string Name = "startAt";
    private const double MostAfterS = 43_200;
    private const string Right = "Must be a local time such as \"06:52\" or \"06:52:30\", or a place in the light such as { \"half\": \"morning\", \"afterOpensS\": 180 }";

    private static readonly LocalTimePattern[] Patterns =
        [LocalTimePattern.CreateWithInvariantCulture("HH:mm"), LocalTimePattern.CreateWithInvariantCulture("HH:mm:ss")];

    public static StartWish? Read(JsonFields set) => set.Raw(Name) switch
    {
        null => null,
        { ValueKind: JsonValueKind.String } text => OnTheClock(set, text.GetString()!),
        { ValueKind: JsonValueKind.Object } => AfterTheLight(set.Object(Name)),
        { } other => Refused(set, Shortened.To80(other.GetRawText())),
    };

    private static StartWish? OnTheClock(JsonFields set, string text)
    {
        var parsed = Patterns.Select(pattern => pattern.Parse(text)).FirstOrDefault(time => time.Success);
        return parsed is { } time ? new StartWish.OnTheClock(time.Value) : Refused(set, $"'{Shortened.To80(text)}'");
    }

    private static StartWish.AfterTheLight AfterTheLight(JsonFields fields)
    {
        if (!fields.Has("half")) fields.Add("half", "Is missing; give morning or evening.");
        var half = fields.Choice("half", DayHalf.Morning, ("morning", DayHalf.Morning), ("evening", DayHalf.Evening));
        var after = fields.Number("afterOpensS", -MostAfterS, MostAfterS);
        fields.RefuseUnknown();
        return new StartWish.AfterTheLight(half, Duration.FromSeconds(Math.Round(after)));
    }

    private static StartWish? Refused(JsonFields set, string got)
    {
        set.Add(Name, $"{Right}; got {got}.");
        return null;
    }
}
