using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Weather;

/// <summary>The sun's beam, followed backwards from the ridge that it lights towards the sun, over the curved earth
/// (docs/model.md, W11).</summary>
/// <remarks>The air bends the beam after the earth by the share k; over an earth flatter by that share, R/(1−k), it runs straight.</remarks>
/// <param name="Ridge">Height of the lit place.</param>
/// <param name="Altitude">Apparent, of the sun at that place; below the horizontal the beam first sinks, then rises.</param>
/// <param name="RefractionK">k.</param>
internal readonly record struct SunwardBeam(Length Ridge, Angle Altitude, double RefractionK)
{
    private double RadiusM => SightModel.EarthRadiusM / (1 - RefractionK);

    /// <summary>The height over which the beam nowhere sinks lower.</summary>
    public Length Lowest => Altitude < Angle.Zero ? Length.FromMetres(((RadiusM + Ridge.Metres) * Altitude.Cos()) - RadiusM) : Ridge;

    /// <summary>How high the beam runs at a distance from the ridge, along the ground.</summary>
    public Length HeightAt(Length distance) =>
        Length.FromMetres(((RadiusM + Ridge.Metres) * Altitude.Cos() / Math.Cos(Altitude.Radians + (distance.Metres / RadiusM))) - RadiusM);

    /// <summary>The length of the beam from the ridge to a distance along the ground [m]: the law of sines in the triangle with the earth's centre.</summary>
    public double LengthTo(double distanceM) =>
        (RadiusM + Ridge.Metres) * Math.Sin(distanceM / RadiusM) / Math.Cos(Altitude.Radians + (distanceM / RadiusM));

    /// <summary>Between which distances from the ridge a layer lies in the beam's way; null where the beam clears it.</summary>
    /// <remarks>A beam that sinks through a layer and rises through it again is reported from first to last.</remarks>
    public (Length Near, Length Far)? Through(CloudLayer layer)
    {
        ArgumentNullException.ThrowIfNull(layer);
        var top = layer.TopOrBase;
        if (Ridge > top) return Lowest < top ? (Sinks(top), Rises(top)) : null;
        return (Ridge >= layer.Base ? Length.Zero : Rises(layer.Base), Rises(top));
    }

    private Length Rises(Length height) => Length.FromMetres(RadiusM * (TurnRad(height) - Altitude.Radians));

    private Length Sinks(Length height) => Length.FromMetres(RadiusM * (-TurnRad(height) - Altitude.Radians));

    /// <summary>The beam's slope where it passes a height.</summary>
    private double TurnRad(Length height) => Math.Acos(Math.Min(1, (RadiusM + Ridge.Metres) * Altitude.Cos() / (RadiusM + height.Metres)));
}
