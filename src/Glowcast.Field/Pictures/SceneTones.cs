using System.Numerics;
using Glowcast.Engine.Sky;

namespace Glowcast.Field.Pictures;

/// <summary>The tones of the ridge picture for a height of the sun. The hue of direct light is the engine's; the rest only tells lit
/// from shaded and near from far. The page has the same.</summary>
internal readonly record struct SceneTones(Vector3 SkyTop, Vector3 SkyFoot, Vector3 Shade, Vector3 Lit)
{
    private static readonly (double AltitudeDeg, SceneTones Tones)[] Hours =
    [
        (-6, new(new(44, 56, 82), new(132, 118, 132), new(38, 46, 62), new(208, 128, 96))),
        (-0.5, new(new(92, 117, 150), new(224, 190, 172), new(58, 68, 84), new(236, 144, 92))),
        (3, new(new(116, 146, 178), new(236, 214, 188), new(68, 82, 100), new(250, 178, 114))),
        (12, new(new(124, 162, 196), new(222, 226, 220), new(82, 100, 118), new(246, 210, 156))),
        (40, new(new(118, 164, 204), new(214, 226, 230), new(92, 112, 128), new(226, 208, 170))),
    ];

    /// <summary>Of the air between the eye and far ground.</summary>
    public Vector3 Air => Vector3.Lerp(Vector3.Lerp(SkyFoot, SkyTop, 0.5f), Shade, 0.3f);

    public static SceneTones At(double sunAltitudeDeg)
    {
        var next = Array.FindIndex(Hours, hour => hour.AltitudeDeg > sunAltitudeDeg);
        if (next == 0) return Hours[0].Tones;
        if (next < 0) return Hours[^1].Tones;
        var (before, after) = (Hours[next - 1], Hours[next]);
        var t = (float)((sunAltitudeDeg - before.AltitudeDeg) / (after.AltitudeDeg - before.AltitudeDeg));
        return new SceneTones(
            Vector3.Lerp(before.Tones.SkyTop, after.Tones.SkyTop, t), Vector3.Lerp(before.Tones.SkyFoot, after.Tones.SkyFoot, t),
            Vector3.Lerp(before.Tones.Shade, after.Tones.Shade, t), Vector3.Lerp(before.Tones.Lit, after.Tones.Lit, t));
    }

    /// <summary>Direct light of a computed colour: that colour, as bright as the tone was.</summary>
    public SceneTones InColour(Chromaticity beam)
    {
        var colour = Rgb.HueOf(beam);
        return this with { Lit = colour * (Luma(Lit) / Luma(colour)) };
    }

    /// <summary>A sea of cloud is whiter than ground, in shade as in light.</summary>
    public SceneTones OnCloud() => this with { Shade = Vector3.Lerp(Shade, SkyFoot, 0.6f), Lit = Vector3.Lerp(Lit, new Vector3(255), 0.25f) };

    private static float Luma(Vector3 colour) => Vector3.Dot(colour, new Vector3(0.3f, 0.59f, 0.11f));
}
