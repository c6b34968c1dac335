using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Light;

/// <summary>How sure a moment of light is, and what decides it.</summary>
/// <param name="Uncertainty">One standard deviation: the median of the ground that comes into the light, or leaves it, then.</param>
/// <param name="UnknownBeyond">How far the grid reaches towards the sun from that ground, where ground beyond its edge,
/// were there any so high, could still stand in the way; null where nothing beyond could.</param>
/// <param name="Horizon">What stands towards the sun then; null where no ground crosses.</param>
public readonly record struct EdgeConfidence(TimingUncertainty Uncertainty, Length? UnknownBeyond, EdgeHorizon? Horizon)
{
    /// <param name="crossings">The ground that crosses, where the sun stands then, and how far that moment may be off.</param>
    internal static EdgeConfidence Of(
        IReadOnlyList<(Place Ground, Azimuth Sun, TimingUncertainty Uncertainty)> crossings, SightLines sights, Length? deckTop)
    {
        if (crossings.Count == 0) return default;
        var uncertainties = new List<TimingUncertainty>();
        var edges = new List<Length>();
        var horizons = new List<(HorizonKind, Azimuth, Length?)>();
        foreach (var (place, sunAzimuth, uncertainty) in crossings)
        {
            uncertainties.Add(uncertainty);
            var horizon = sights.HorizonOf(place, sunAzimuth);
            if (horizon is { BeyondCouldMatter: true, GridEdge: { } edge }) edges.Add(edge);
            horizons.Add((EdgeHorizon.KindOf(place, sunAzimuth, horizon, sights, deckTop), sunAzimuth, horizon.Distance));
        }
        return new EdgeConfidence(
            uncertainties.OrderBy(uncertainty => uncertainty.CombinedS).ElementAt(uncertainties.Count / 2),
            2 * edges.Count < crossings.Count ? null : edges.Order().ElementAt(edges.Count / 2),
            EdgeHorizon.Median(horizons));
    }
}
