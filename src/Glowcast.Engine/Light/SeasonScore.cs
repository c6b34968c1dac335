using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>Ranks the days of a season by their best window. The weights are ours; common practice, no source.</summary>
/// <param name="SetLength">How long the planned set takes; null when no set is planned.</param>
public sealed record SeasonScore(Duration? SetLength = null)
{
    // Light is warm below this altitude, and white above that.
    private const double WarmDeg = 3;
    private const double WhiteDeg = 12;

    // A window three times as long as the set, or half an hour, has half the room anybody could wish for; each as much
    // again halves what is missing.
    private const double RoomFactor = 3;
    private static readonly Duration EnoughWithoutSet = Duration.FromMinutes(30);

    private const double RoomWeight = 0.35;
    private const double CoverWeight = 0.25;
    private const double ShadeWeight = 0.15;
    private const double WarmthWeight = 0.25;

    internal SeasonDay Judge(LocalDate date, IReadOnlyList<SeasonWindow> windows)
    {
        if (windows.Count == 0) return new SeasonDay(date, [], 0, ["No window: the ridge is not lit while the valley is in shade."]);
        var best = windows.MaxBy(Of)!;
        return new SeasonDay(date, windows, Of(best), Reasons(best));
    }

    private double Of(SeasonWindow window) =>
        (RoomWeight * Room(window)) + (CoverWeight * window.RidgeShare) + (ShadeWeight * (1 - (window.ValleyShare ?? 0))) + (WarmthWeight * Warmth(window));

    private double Room(SeasonWindow window) => 1 - Math.Pow(2, -(window.Time.Duration / Enough));

    private Duration Enough => SetLength is { } length ? length * RoomFactor : EnoughWithoutSet;

    private static double Warmth(SeasonWindow window) => Math.Clamp((WhiteDeg - window.SunAltitudeDeg) / (WhiteDeg - WarmDeg), 0, 1);

    private List<string> Reasons(SeasonWindow window)
    {
        var minutes = window.Time.Duration.TotalMinutes;
        var reasons = new List<string> { $"The window lasts {minutes:0} min." };
        if (SetLength is { } length)
            reasons.Add(window.Time.Duration < length ? $"The set takes {length.TotalMinutes:0.#} min and does not fit." : $"That is {window.Time.Duration / length:0.#} times the set.");
        reasons.Add($"In its middle {window.RidgeShare:0%} of the ridge is lit.");
        if (window.ValleyShare is { } valley) reasons.Add($"{valley:0%} of the valley is lit by then.");
        reasons.Add(window.SunAltitudeDeg switch
        {
            < WarmDeg => $"The sun is {window.SunAltitudeDeg:0.0}° high: warm light.",
            < WhiteDeg => $"The sun is {window.SunAltitudeDeg:0.0}° high: the warmth is going.",
            _ => $"The sun is {window.SunAltitudeDeg:0.0}° high: white light.",
        });
        return reasons;
    }
}
