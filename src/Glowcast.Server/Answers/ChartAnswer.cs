using Glowcast.Engine.Light;
using Glowcast.Engine.Sky;

namespace Glowcast.Server.Answers;

/// <summary>The light chart as compact arrays: one byte a minute and column, row by row in time, in base64.</summary>
/// <param name="Start">UTC of the first minute.</param>
/// <param name="FromDeg">Bearing of the left edge of the first column.</param>
/// <param name="ColumnDeg">Width of a column, clockwise.</param>
/// <param name="HasRidge">For each column, whether it shows ridge.</param>
/// <param name="Crest">Mean share of the sun's disc that the crest band sees, 0 to 255.</param>
/// <param name="Ridge">The same for all of the ridge.</param>
/// <param name="Valley">The same for the valley.</param>
public sealed record ChartAnswer(
    string Start, int Minutes, double FromDeg, double ColumnDeg, int Columns, IReadOnlyList<bool> HasRidge, byte[] Crest, byte[] Ridge, byte[] Valley)
{
    /// <summary>What has one value a minute for the whole ridge; null where its light was not worked out.</summary>
    public ChartMinutesAnswer? ByMinute { get; init; }

    public static ChartAnswer Of(LightChart chart, RidgeBrightness? ridge = null, Haze? haze = null)
    {
        ArgumentNullException.ThrowIfNull(chart);
        return new ChartAnswer(
            Moments.Utc(chart.Track.Interval.Start), chart.Minutes, chart.Scene.Span.From.Degrees, chart.Scene.View.ColumnWidth.Degrees,
            chart.Scene.Columns, [.. chart.CrestLit.Select(crest => crest is not null)],
            chart.MeanDiscShares(role => role == PatchRole.Crest),
            chart.MeanDiscShares(role => role is PatchRole.Crest or PatchRole.Ridge),
            chart.MeanDiscShares(role => role == PatchRole.Valley))
        {
            ByMinute = ridge is null ? null : ChartMinutesAnswer.Of(chart, ridge, haze ?? Haze.None),
        };
    }
}
