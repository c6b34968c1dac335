using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Sky;

/// <summary>The sun on the meridian, at the side of the sky where it stands high.</summary>
public readonly record struct SunTransit(Instant At, Angle AirlessAltitude);

/// <summary>What the sun does in a stretch of time over a mathematical horizon.</summary>
/// <param name="Transit">The first in the stretch, or none.</param>
/// <param name="RiseSet">Of the upper limb, by the convention of <see cref="SunEvents.RiseSetAltitude"/>.</param>
/// <param name="Civil">Dawn and dusk: the centre at 6° below the horizon.</param>
/// <param name="Nautical">Dawn and dusk: the centre at 12° below the horizon.</param>
/// <param name="Astronomical">Dawn and dusk: the centre at 18° below the horizon.</param>
public sealed record DayOfSun(
    SunTransit? Transit, ThresholdCrossings RiseSet, ThresholdCrossings Civil, ThresholdCrossings Nautical, ThresholdCrossings Astronomical);
