using System.Xml.Linq;
using Glowcast.Engine.Capture;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Field.Words;

namespace Glowcast.Field.Card;

/// <summary>What to have done before the marker frame.</summary>
internal static class PreparationBlock
{
    private const double BytesPerGigabyte = 1e9;

    /// <param name="exposure">That the light asks for; null where none is known.</param>
    public static XElement Of(PlannedSet set, PictureExposure? exposure)
    {
        var (layout, storage) = (set.Layout, RawStorage.Of(set.Layout));
        return Markup.Section("ready", "Before the marker", Markup.List(
        [
            $"Base level, then camera: {layout.Settings.LevelError.Degrees:0.##}° off costs {layout.Levelling.WorstCropPx:0} pixels of height.",
            "Pupil on its mark. Sweep once to both ends; count the frames.",
            "Focus by hand, magnified, on the ridge; tape the ring.",
            $"Stabiliser off. No polariser. Raw; {Setting(set, exposure)}.",
            $"Room on the card for {storage.Exposures} files, {storage.Bytes / BytesPerGigabyte:0.0} GB.",
        ]));
    }

    private static string Setting(PlannedSet set, PictureExposure? exposure) => exposure is null
        ? "exposure, sensitivity and white balance by hand"
        : $"by hand {ToneWords.Setting(exposure, set.Layout.Settings.Times.Exposure)}";
}
