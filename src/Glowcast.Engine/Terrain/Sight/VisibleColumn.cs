using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>What is visible on one bearing, from the ground before the feet up to the skyline.</summary>
/// <param name="Bearing">True.</param>
/// <param name="Samples">Outwards; each stands higher than the one before.</param>
/// <param name="StepM">The step of the sweep [m]: samples farther apart have hidden ground between them.</param>
/// <param name="GridEdge">Where the bearing leaves the grid.</param>
public sealed record VisibleColumn(Azimuth Bearing, IReadOnlyList<VisibleSample> Samples, double StepM, Length GridEdge)
{
    /// <summary>The highest visible ground; null where the grid has none on this bearing.</summary>
    public VisibleSample? Skyline => Samples.Count > 0 ? Samples[^1] : null;

    /// <summary>The ground seen at an apparent angle; null above the skyline, and below the nearest ground.</summary>
    public VisibleSample? At(double altitudeRad)
    {
        if (Samples.Count == 0 || altitudeRad < Samples[0].AltitudeRad || altitudeRad > Samples[^1].AltitudeRad) return null;
        var (below, above) = (0, Samples.Count - 1);
        while (above - below > 1)
        {
            var middle = (below + above) / 2;
            if (Samples[middle].AltitudeRad <= altitudeRad) below = middle;
            else above = middle;
        }
        var (near, far) = (Samples[below], Samples[above]);
        // Behind hidden ground the view meets the far slope close to its first visible sample.
        if (far.DistanceM - near.DistanceM > 1.5 * StepM) return far with { AltitudeRad = altitudeRad };
        var t = (altitudeRad - near.AltitudeRad) / (far.AltitudeRad - near.AltitudeRad);
        return new VisibleSample(
            near.DistanceM + (t * (far.DistanceM - near.DistanceM)), near.HeightM + (t * (far.HeightM - near.HeightM)), altitudeRad);
    }
}
