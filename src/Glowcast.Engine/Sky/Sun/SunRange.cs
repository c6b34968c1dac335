using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Sky;

/// <summary>Airless altitudes of the sun's centre, from the higher, which belongs to it, down to the lower, which does not.</summary>
public readonly record struct SunRange(Angle From, Angle To)
{
    public bool IsEmpty => From <= To;

    public bool Contains(Angle airlessAltitude) => airlessAltitude <= From && airlessAltitude > To;

    internal static SunRange Degrees(double from, double to) => new(Angle.FromDegrees(from), Angle.FromDegrees(to));
}
