using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>What the camera makes of a window: its exposure, the picture's black point, and whether the ridge is to be seen at all.</summary>
/// <param name="Exposure">Null where the picture shows no ground.</param>
/// <param name="BlackPoint">Half-way; null likewise.</param>
/// <param name="Ridge">Half-way; null where the picture shows no crest.</param>
public sealed record WindowTones(PictureExposure? Exposure, ToneRange? BlackPoint, RidgeInAir? Ridge)
{
    /// <summary>The sky at the horizon behind the ridge, half-way [cd/m²].</summary>
    public double SkyCd { get; init; }

    /// <param name="ridge">How bright the ridge is through the day.</param>
    public static WindowTones Of(LightChart chart, Interval window, RidgeBrightness ridge, Length visibility, Surfaces surfaces, ExposureSettings settings)
    {
        var middle = At(window.Start + (window.Duration / 2));
        return new WindowTones(PictureExposure.Of(At(window.Start), middle, At(window.End), settings), ToneRange.Of(middle), RidgeInAir.Of(middle)) { SkyCd = middle.SkyCd };

        PictureTones At(Instant instant) => PictureTones.Of(chart, instant, ridge, visibility, surfaces);
    }
}
