using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Forecast;

/// <summary>What a changed set costs the print, and the photographer's safety.</summary>
/// <remarks>docs/model.md, F12.</remarks>
/// <param name="PixelsLost">Share of the printable pixels, counting no wider, higher or finer a picture than was planned.</param>
/// <param name="WidthChange">Of the print, as a share; negative for narrower.</param>
/// <param name="HeightChange">Of the print, as a share; negative for lower.</param>
/// <param name="SafetyLost">Share of the planned sets given up, plus the overlap given up, plus a quarter for a seam between
/// halves shot apart.</param>
/// <param name="Sentence">All of it in words.</param>
public sealed record PrintCost(double PixelsLost, double WidthChange, double HeightChange, double SafetyLost, string Sentence)
{
    private const double SeamOfHalves = 0.25;
    private const double Noticeable = 0.005;

    internal static PrintCost Of(PlannedSet planned, SetSequence changed)
    {
        var (before, after) = (planned.Layout, changed.Parts[0].Layout);
        var isSplit = changed.Parts.Count > 1;
        var spanRad = changed.Parts.Sum(part => part.Layout.Span.Radians);
        var (width, height) = (after.Field.FocalLengthPx * spanRad / before.WidthPx, after.Clean.HeightPx / before.Clean.HeightPx);
        var scale = after.Field.FocalLengthPx / before.Field.FocalLengthPx;
        var dark = DarkShare(changed.Parts) - DarkShare([planned]);
        var kept = Least(scale) * Least(scale) * Least(width / scale) * Least(height / scale) * (1 - Math.Max(0, dark));
        var setsLost = before.Settings.Repeats - after.Settings.Repeats;
        var overlapLost = Math.Max(0, before.Across.Overlap - after.Across.Overlap);
        string[] words =
        [
            .. InWords("narrower", "wider", width - 1, after.PrintAt(before.Settings.PrintPpi).Width * (spanRad / after.Span.Radians)),
            .. InWords("lower", "higher", height - 1, after.PrintAt(before.Settings.PrintPpi).Height),
            .. dark > 0 ? [$"{dark * planned.Plan.Span.Width.Degrees:0.#}° of the ridge are dark in it."] : Array.Empty<string>(),
            .. Safety(setsLost, after),
            .. overlapLost > Noticeable ? [$"Less room for seams: {after.Across.Overlap * 100:0} % overlap instead of {before.Across.Overlap * 100:0} %."] : Array.Empty<string>(),
            .. Gap(planned.Clock, changed.Parts[0].Clock),
            .. isSplit ? [$"A seam in the middle of the picture, between frames shot up to {changed.TotalS:0} s apart."] : Array.Empty<string>(),
        ];
        return new PrintCost(
            1 - kept, width - 1, height - 1,
            ((double)setsLost / (before.Settings.Repeats + 1)) + overlapLost + (isSplit ? SeamOfHalves : 0),
            words.Length > 0 ? string.Join(" ", words) : "Nothing.");
    }

    /// <summary>Of the span, how much may stay dark.</summary>
    private static double DarkShare(IReadOnlyList<PlannedSet> parts) =>
        parts[0].Plan.DarkStrips.Sum(strip => strip.Width.Degrees) / parts.Sum(part => part.Plan.Span.Width.Degrees);

    private static double Least(double share) => Math.Min(1, share);

    private static IEnumerable<string> InWords(string less, string more, double change, Length length)
    {
        if (Math.Abs(change) > Noticeable)
            yield return $"A print {Math.Abs(change) * 100:0.#} % {(change < 0 ? less : more)}: {length.Millimetres:0} mm.";
    }

    private static IEnumerable<string> Safety(int setsLost, SetLayout after)
    {
        if (setsLost > 0)
            yield return after.Settings.Repeats == 0 ? "No safety set to fall back on." : $"{setsLost} safety {(setsLost == 1 ? "set" : "sets")} fewer.";
    }

    private static IEnumerable<string> Gap(SetClock before, SetClock after)
    {
        if (after.MaxVerticalGap > before.MaxVerticalGap)
            yield return $"Frames above each other up to {after.MaxVerticalGap.TotalSeconds:0} s apart instead of {before.MaxVerticalGap.TotalSeconds:0} s, which shows where cloud moves.";
    }
}
