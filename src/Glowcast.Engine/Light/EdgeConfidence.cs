using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Light;

/// <summary>How sure a moment of light is, and what decides it.</summary>
/// <param name="Uncertainty">One standard deviation: the median of the ground that comes into the light, or leaves it, then.</param>
/// <param name="UnknownBeyond">The ground past the grid's edge towards the sun, where that, were there any so high, could still
/// stand in the way: the median of the ground that crosses; null where nothing beyond could.</param>
/// <param name="Horizon">What stands towards the sun then; null where no ground crosses.</param>
public readonly record struct EdgeConfidence(TimingUncertainty Uncertainty, UnknownGround? UnknownBeyond, EdgeHorizon? Horizon)
{
    internal static EdgeConfidence Of(
        IReadOnlyList<(Place Ground, HorizonCrossing Crossing)> crossings, SunOverGround ground, SightLines sights, Length? deckTop)
    {
        if (crossings.Count == 0) return default;
        var uncertainties = new List<TimingUncertainty>();
        var unknown = new List<UnknownGround>();
        var horizons = new List<(HorizonKind, Azimuth, Length?)>();
        foreach (var (place, crossing) in crossings)
        {
            ground.StandAt(place);
            uncertainties.Add(TimingUncertainty.At(crossing, ground, place.Height));
            var sunAzimuth = Azimuth.FromRadians(crossing.Sun!.Value.AzimuthRad);
            var horizon = sights.HorizonOf(place, sunAzimuth);
            if (UnknownGround.Of(place, sunAzimuth, horizon, sights) is { } beyond) unknown.Add(beyond);
            horizons.Add((EdgeHorizon.KindOf(place, sunAzimuth, horizon, sights, deckTop), sunAzimuth, horizon.Distance));
        }
        return new EdgeConfidence(
            uncertainties.OrderBy(uncertainty => uncertainty.CombinedS).ElementAt(uncertainties.Count / 2),
            2 * unknown.Count < crossings.Count ? null : unknown.OrderBy(ground => ground.CouldMove).ThenBy(ground => ground.Distance).ElementAt(unknown.Count / 2),
            EdgeHorizon.Median(horizons));
    }
}
