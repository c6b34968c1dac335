using System.Text.Json;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Server.Answers;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Server.Notes;

/// <summary>Reads what a client writes of the field, and lays the forecast beside it.</summary>
internal static class NoteReader
{
    private const int LongestText = 2000;

    private static readonly string[] Known = ["forecast", "window", "firstLight", "lastLight", "deckTopM", "set", "text"];

    /// <summary>The address of the forecast that a note is about.</summary>
    /// <exception cref="BadInputException">The body is no object.</exception>
    public static string? ForecastIn(JsonElement body) => body.ValueKind == JsonValueKind.Object
        ? Text(body, "forecast")
        : throw new BadInputException("body", "Must be a JSON object in braces.");

    /// <param name="forecast">The answer that was given then; null where it is not known.</param>
    /// <exception cref="BadInputException">Something is missing or wrong; names every field.</exception>
    public static FieldNote Read(JsonElement body, JsonElement? forecast, Instant now)
    {
        var faults = new Faults();
        foreach (var field in body.EnumerateObject().Where(field => !Known.Contains(field.Name)))
            faults.Add(Shortened.To80(field.Name), $"Is not known; here stand {string.Join(", ", Known)}.");
        if (forecast is null) faults.Add("forecast", "Must be the address of a forecast of this service, as its answer gave it; post its plan again to have it anew.");
        var window = (int)faults.InRange(Number(body, "window", faults), "window", 0, Math.Max(0, WindowsOf(forecast) - 1), 0);
        var seen = new SeenInField(
            Moment(body, "firstLight", faults), Moment(body, "lastLight", faults),
            Has(body, "deckTopM") ? faults.InRange(Number(body, "deckTopM", faults), "deckTopM", -500, 9000) : null, Outcome(body, faults));
        if (seen == new SeenInField(null, null, null, null)) faults.Add("firstLight", "Nothing was seen: give one at least of firstLight, lastLight, deckTopM and set.");
        var text = Text(body, "text") ?? "";
        if (text.Length > LongestText) faults.Add("text", $"Must have at most {LongestText} characters; got {text.Length}.");
        faults.ThrowIfAny();
        var answer = forecast!.Value;
        var lookout = answer.GetProperty("lookout");
        return new FieldNote(
            Guid.CreateVersion7().ToString("N"), InstantPattern.ExtendedIso.Format(now), answer.GetProperty("date").GetString()!,
            lookout.GetProperty("latitudeDeg").GetDouble(), lookout.GetProperty("longitudeDeg").GetDouble(), Text(body, "forecast")!, seen, Expected(answer, window), text);
    }

    private static ForecastOfNote Expected(JsonElement forecast, int window)
    {
        var expected = forecast.GetProperty("windows").EnumerateArray().Cast<JsonElement?>().ElementAtOrDefault(window);
        var deck = forecast.GetProperty("cloud").GetProperty("deckTopM");
        var fit = forecast.GetProperty("fit");
        return new ForecastOfNote(
            expected?.GetProperty("start").GetString(), expected?.GetProperty("end").GetString(),
            deck.ValueKind == JsonValueKind.Number ? deck.GetDouble() : null,
            fit.ValueKind == JsonValueKind.Object ? fit.GetProperty("verdict").GetString() : null);
    }

    private static int WindowsOf(JsonElement? forecast) => forecast?.GetProperty("windows").GetArrayLength() ?? 0;

    private static bool Has(JsonElement body, string name) => body.TryGetProperty(name, out var value) && value.ValueKind != JsonValueKind.Null;

    private static string? Text(JsonElement body, string name) =>
        body.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;

    private static double? Number(JsonElement body, string name, Faults faults)
    {
        if (!Has(body, name)) return null;
        var value = body.GetProperty(name);
        if (value.ValueKind == JsonValueKind.Number) return value.GetDouble();
        faults.Add(name, $"Must be a number; got {Shortened.To80(value.GetRawText())}.");
        return null;
    }

    private static string? Moment(JsonElement body, string name, Faults faults)
    {
        if (!Has(body, name)) return null;
        try
        {
            return Moments.Utc(TimeReader.Moment(Text(body, name) ?? body.GetProperty(name).GetRawText(), name));
        }
        catch (BadInputException bad)
        {
            faults.Add(name, bad.Faults[0].Message);
            return null;
        }
    }

    private static SetOutcome? Outcome(JsonElement body, Faults faults)
    {
        if (!Has(body, "set")) return null;
        switch (Text(body, "set"))
        {
            case "whole": return SetOutcome.Whole;
            case "broken": return SetOutcome.Broken;
            case "notShot": return SetOutcome.NotShot;
            default:
                faults.Add("set", $"Must be whole, broken or notShot; got {Shortened.To80(body.GetProperty("set").GetRawText())}.");
                return null;
        }
    }
}
