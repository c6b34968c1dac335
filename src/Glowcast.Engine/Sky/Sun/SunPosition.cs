using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Sky;

/// <summary>Where the centre of the sun stands for one observer at one instant, and how large its disc is.</summary>
/// <param name="Azimuth">True bearing. At the zenith and at the poles it turns fast and means little.</param>
/// <param name="AirlessAltitude">Above the observer's horizontal plane, without refraction.</param>
/// <param name="Semidiameter">Half the angular diameter of the disc.</param>
/// <param name="DistanceAu">From the observer, in astronomical units.</param>
public readonly record struct SunPosition(Azimuth Azimuth, Angle AirlessAltitude, Angle Semidiameter, double DistanceAu);
