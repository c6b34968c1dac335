namespace Glowcast.Engine.Light;

/// <summary>One piece of ground in the picture at one moment.</summary>
/// <param name="Weight">Its solid angle [sr].</param>
/// <param name="Light">That falls on it.</param>
/// <param name="Reflectance">0 to 1.</param>
/// <param name="DistanceM">From the lookout [m].</param>
/// <param name="SeenCd">Its luminance as the camera has it, through the air [cd/m²].</param>
/// <param name="Contrast">Against the sky at the horizon behind, through even air: (L − L_sky)/L_sky · t.</param>
/// <param name="Role">In the picture.</param>
public readonly record struct Tone(double Weight, GroundLight Light, double Reflectance, double DistanceM, double SeenCd, double Contrast, PatchRole Role)
{
    /// <summary>Without any air [cd/m²].</summary>
    public double BareCd => Light.LuminanceCd(Reflectance);
}
