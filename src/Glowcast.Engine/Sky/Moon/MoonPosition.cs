using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Sky;

/// <summary>Where the centre of the moon stands for one observer at one instant, and how large its disc is.</summary>
/// <param name="Azimuth">True bearing.</param>
/// <param name="AirlessAltitude">Above the observer's horizontal plane, without refraction.</param>
/// <param name="Semidiameter">Half the angular diameter of the disc.</param>
/// <param name="Distance">From the observer.</param>
public readonly record struct MoonPosition(Azimuth Azimuth, Angle AirlessAltitude, Angle Semidiameter, Length Distance);
