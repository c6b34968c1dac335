using System.Globalization;

namespace Glowcast.Engine.Take;

/// <summary>Finds what should have been locked for a set and changed.</summary>
internal static class LockedSettings
{
    private const double SameStops = 0.2;
    private const double SameFocal = 0.02;
    private const double SameFocus = 0.1;

    /// <param name="frames">Of one set, in the order they were shot.</param>
    /// <param name="rhythm">Of the set: the exposures of a bracket differ as they are meant to.</param>
    /// <param name="positions">Where in the rhythm each frame stands.</param>
    public static IReadOnlyList<SettingChange> Changes(IReadOnlyList<ShotFrame> frames, SetRhythm rhythm, IReadOnlyList<int> positions)
    {
        var changes = new List<SettingChange>();
        for (var i = 1; i < frames.Count; i++)
        {
            var (before, next, at) = (frames[i - 1].Settings, frames[i].Settings, frames[i].Name);
            var longer = rhythm.LongerStops(positions[i - 1], positions[i]);
            Compare("exposure", before.Exposure?.TotalSeconds, next.Exposure?.TotalSeconds, (a, b) => Math.Abs(Math.Log2(b / a) - longer) <= SameStops, Seconds);
            Compare("aperture", before.Aperture, next.Aperture, (a, b) => Math.Abs(2 * Math.Log2(b / a)) <= SameStops, n => $"f/{Text(n)}");
            Compare("ISO", before.Iso, next.Iso, (a, b) => Math.Abs(Math.Log2(b / a)) <= SameStops, Text);
            Compare("focal length", before.FocalLength?.Millimetres, next.FocalLength?.Millimetres, (a, b) => Math.Abs(a - b) <= SameFocal * a, mm => $"{Text(mm)} mm");
            Compare("focus distance", before.FocusDistance?.Metres, next.FocusDistance?.Metres, (a, b) => Math.Abs(a - b) <= SameFocus * a, m => $"{Text(m)} m");
            Compare("lie", before.Lie, next.Lie, (a, b) => a == b, Text);
            Compare("width", before.PixelsWide, next.PixelsWide, (a, b) => a == b, Text);
            if (before.WhiteBalance is { } white && next.WhiteBalance is { } other && white != other)
                changes.Add(new SettingChange("white balance", white, other, at));

            void Compare(string setting, double? a, double? b, Func<double, double, bool> isSame, Func<double, string> say)
            {
                if (a is { } from && b is { } to && !(from == to || isSame(from, to))) changes.Add(new SettingChange(setting, say(from), say(to), at));
            }
        }
        return changes;
    }

    private static string Seconds(double seconds) => seconds is > 0 and < 0.3 ? $"1/{Text(Math.Round(1 / seconds))} s" : $"{Text(seconds)} s";

    private static string Text(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}
