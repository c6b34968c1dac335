using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Light;

/// <summary>One bearing of the picture at one moment.</summary>
/// <param name="SunFromView">Between the bearing and the sun, along the horizon.</param>
/// <param name="Relief">Null where no ridge is visible.</param>
/// <param name="BlackPoint">Lit ridge against shaded ground beside it; null where no ridge is lit.</param>
/// <param name="PathInSun">Share of the airlight before the ridge that comes from sunlit air, as against air in the shadow of
/// the terrain; null where no ridge is lit.</param>
public sealed record BearingLight(Azimuth Bearing, Angle SunFromView, RidgeShadow? Relief, BlackPoint? BlackPoint, double? PathInSun)
{
    public LightDirection Direction => LightDirections.Of(SunFromView);
}
