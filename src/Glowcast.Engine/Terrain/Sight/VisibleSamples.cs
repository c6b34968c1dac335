using System.Collections;

namespace Glowcast.Engine.Terrain;

/// <summary>The visible places of one bearing, outwards: kept as steps and heights, from which all else follows when it is asked for.</summary>
internal sealed class VisibleSamples(VisibleStep[] steps, double stepM, double eyeM, double dropPerMetre) : IReadOnlyList<VisibleSample>
{
    public int Count => steps.Length;

    public VisibleSample this[int index]
    {
        get
        {
            var (distanceM, heightM) = (steps[index].Step * stepM, (double)steps[index].HeightM);
            return new VisibleSample(distanceM, heightM, Math.Atan((heightM - eyeM) / distanceM) - (distanceM * dropPerMetre));
        }
    }

    public IEnumerator<VisibleSample> GetEnumerator()
    {
        for (var i = 0; i < Count; i++) yield return this[i];
    }

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}

/// <summary>One visible place of the ground on a bearing.</summary>
/// <param name="DistanceM">From the eye [m].</param>
/// <param name="HeightM">Of the ground [m].</param>
/// <param name="AltitudeRad">Apparent angle at the eye [rad].</param>
public readonly record struct VisibleSample(double DistanceM, double HeightM, double AltitudeRad);

/// <summary>A visible place as a sweep keeps it.</summary>
/// <param name="Step">Steps from the eye.</param>
/// <param name="HeightM">Of the ground [m].</param>
internal readonly record struct VisibleStep(int Step, float HeightM);
