using Glowcast.Engine.Light;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>Where a plan leaves the exposure open, the clock of its set runs with the one that the light of its longest window asks for.</summary>
internal static class ChosenExposure
{
    private static readonly Duration Longest = Duration.FromHours(1);
    private static readonly Duration Shortest = Duration.FromTicks(10);

    /// <returns>The same plan where it names an exposure, and where there is no window to take one from.</returns>
    public static Plan For(Plan plan, IReadOnlyList<LightWindow> windows) =>
        plan.ChooseExposure && windows.MaxBy(window => window.Length)?.Tones?.Exposure is { } exposure
            ? plan with { Set = plan.Set with { Times = plan.Set.Times with { Exposure = Within(Duration.FromSeconds(exposure.ShutterS)) } } }
            : plan;

    private static Duration Within(Duration exposure) => Duration.Max(Shortest, Duration.Min(Longest, exposure));
}
