using Glowcast.Engine.Light;

namespace Glowcast.Engine.Forecast;

/// <summary>What every forecast must say to keep people from harm.</summary>
public static class Cautions
{
    public const string Lens = "Never look at the sun through a long lens or an optical finder, not even at its rim on a ridge: it burns the eye without pain. Use the rear screen, and keep the cap on while the sun is in or near the frame.";

    public const string Mountain = "Lookouts in the dark and in winter: ice, edges and cornices that break farther back than they look, avalanche slopes above and below, fog and frost on the road. Carry light and warmth, and a time to turn back.";

    public const string Authority = "This is a plan for light, not a route or a permit. Follow local avalanche bulletins, weather warnings, closures and the advice of the people licensed to give it.";

    private const string SunInSpan = "The sun stands within the span while the window is open: do not frame it, and expect flare at that end of the sweep.";

    /// <summary>The usual ones, and those that this day's light calls for.</summary>
    public static IReadOnlyList<string> For(IReadOnlyList<LightWindow> windows) =>
        windows.Any(window => window.SunInSpan) ? [SunInSpan, Lens, Mountain, Authority] : [Lens, Mountain, Authority];
}
