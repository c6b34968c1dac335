using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>By how much a start may move and every exposure still have its light, by the best estimate.</summary>
/// <param name="Before">Earlier; negative where the start lies before the first possible one.</param>
/// <param name="After">Later; negative past the last possible one.</param>
/// <param name="BeforeUncertainty">One standard deviation.</param>
/// <param name="AfterUncertainty">One standard deviation.</param>
public sealed record StartRoom(Duration Before, Duration After, Duration BeforeUncertainty, Duration AfterUncertainty)
{
    internal static StartRoom Of(StartRange range, double startS) => new(
        Duration.FromSeconds(startS - range.First.StartS), Duration.FromSeconds(range.Last.StartS - startS),
        Duration.FromSeconds(range.FirstDoubt.CombinedS), Duration.FromSeconds(range.LastDoubt.CombinedS));
}
