using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Light;

/// <summary>The light on a sunlit ridge at one moment.</summary>
/// <param name="DirectLux">The sun's beam on ground that faces it: the brightest the ridge gets.</param>
/// <param name="DiffuseLux">The clear sky on open level ground, as measured near the sea; a summit's is up to half a stop less.</param>
/// <param name="DirectColour">Of the beam.</param>
public readonly record struct RidgeLight(double DirectLux, double DiffuseLux, Chromaticity DirectColour)
{
    public double TotalLux => DirectLux + DiffuseLux;

    internal static RidgeLight Between(RidgeLight a, RidgeLight b, double share) => new(
        a.DirectLux * Math.Pow(b.DirectLux / a.DirectLux, share),
        a.DiffuseLux * Math.Pow(b.DiffuseLux / a.DiffuseLux, share),
        new Chromaticity(
            a.DirectColour.X + (share * (b.DirectColour.X - a.DirectColour.X)), a.DirectColour.Y + (share * (b.DirectColour.Y - a.DirectColour.Y))));
}

/// <summary>How fast a ridge brightens, in stops per minute; negative where it darkens.</summary>
public readonly record struct BrightnessRate(double Direct, double Diffuse, double Total);
