using System.Text.Json;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Take;
using Glowcast.Server.Answers;
using Glowcast.Server.Notes;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Server.Takes;

/// <summary>A take beside a forecast that this service has answered, by that answer.</summary>
internal sealed class TakeAgainstForecast
{
    private readonly string address;
    private readonly JsonElement forecast;
    private readonly List<Window> windows;

    /// <param name="forecast">The answer.</param>
    public TakeAgainstForecast(string address, JsonElement forecast)
    {
        (this.address, this.forecast) = (address, forecast);
        windows = [.. forecast.GetProperty("windows").EnumerateArray().Select(Window.Of)];
    }

    /// <summary>Of its lookout; null where it has none.</summary>
    public DateTimeZone? Zone => forecast.GetProperty("timeZone").GetString() is { } name ? DateTimeZoneProviders.Tzdb.GetZoneOrNull(name) : null;

    private GeoPoint Lookout => GeoPoint.FromDegrees(OfLookout("latitudeDeg"), OfLookout("longitudeDeg"));

    private LocalDate Date => LocalDatePattern.Iso.Parse(forecast.GetProperty("date").GetString()!).Value;

    /// <summary>With the comparison in it.</summary>
    public TakeAnswer Compare(TakeAnswer answer, SortedTake take, CameraClock clock)
    {
        var compared = new TakeComparedAnswer(
                [.. take.Sets.Index().Select(set => SetOf(set.Index + 1, set.Item, clock)).OfType<SetComparedAnswer>()],
                [.. LightSeen.In(take, clock).Select(seen => LightSeenAnswer.Of(seen, MissOf(seen)))]);
        return answer.RankedBy(compared, take).OnDay(Date, take, clock, Lookout, Zone);
    }

    /// <summary>What it tells of the forecast, as a field note; null where it tells nothing.</summary>
    public FieldNote? NoteOf(TakeAnswer answer, Instant now)
    {
        var (first, last) = (Seen(answer, LightChange.FirstLight), Seen(answer, LightChange.LastLight));
        var outcome = answer.Sets.Any(set => set.Wholeness == Wholeness.Whole) ? SetOutcome.Whole
            : answer.Sets.Any(set => set.Wholeness == Wholeness.NotWhole) ? SetOutcome.Broken
            : (SetOutcome?)null;
        if (first is null && last is null && outcome is null) return null;
        var fit = forecast.GetProperty("fit");
        return new FieldNote(
            Guid.CreateVersion7().ToString("N"), InstantPattern.ExtendedIso.Format(now), forecast.GetProperty("date").GetString()!,
            OfLookout("latitudeDeg"), OfLookout("longitudeDeg"), address,
            new SeenInField(first?.At, last?.At, null, outcome),
            new ForecastOfNote(first?.Forecast, last?.Forecast, null, fit.ValueKind == JsonValueKind.Object ? fit.GetProperty("verdict").GetString() : null),
            $"From a take of {answer.Sets.Count} sets.");
    }

    private double OfLookout(string name) => forecast.GetProperty("lookout").GetProperty(name).GetDouble();

    // Only one that has a moment of the forecast beside it says anything of the forecast.
    private static LightSeenAnswer? Seen(TakeAnswer answer, LightChange change) => answer.Compared!.LightSeen.FirstOrDefault(seen => seen.Change == change && seen.LateS is not null);

    private LightMiss? MissOf(LightSeen seen) =>
        LightMiss.Of(seen, windows.SelectMany(window => new[] { (window.StartCause, window.Start), (window.EndCause, window.End) }));

    private SetComparedAnswer? SetOf(int number, FoundSet set, CameraClock clock)
    {
        if (clock.At(set.First) is not { } start) return null;
        var end = start + set.Pace.FirstToLast;
        var window = windows.Find(window => window.Start <= start && start < window.End);
        return new SetComparedAnswer(number, Moments.Utc(start), Moments.Utc(end), window is not null, window is not null && end < window.End, set.Drift?.FirstToLastStops, null);
    }

    private sealed record Window(Instant Start, Instant End, WindowEdgeCause StartCause, WindowEdgeCause EndCause)
    {
        public static Window Of(JsonElement window) => new(
            At(window, "start"), At(window, "end"), window.GetProperty("startCause").Deserialize<WindowEdgeCause>(AnswerJson.Options), window.GetProperty("endCause").Deserialize<WindowEdgeCause>(AnswerJson.Options));

        private static Instant At(JsonElement window, string name) => InstantPattern.ExtendedIso.Parse(window.GetProperty(name).GetString()!).Value;
    }
}
