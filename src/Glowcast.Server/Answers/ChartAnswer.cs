using Glowcast.Engine.Light;
using Glowcast.Engine.Sky;

namespace Glowcast.Server.Answers;

/// <summary>The light chart as compact arrays: one byte a minute and column, row by row in time, in base64.</summary>
/// <param name="Start">UTC of the first minute.</param>
/// <param name="LengthS">Of the stretch of time that the chart is about.</param>
/// <param name="FromDeg">Bearing of the left edge of the first column.</param>
/// <param name="ColumnDeg">Width of a column, clockwise.</param>
/// <param name="HasRidge">For each column, whether it shows ridge.</param>
/// <param name="Crest">Mean share of the sun's disc that the crest band sees, 0 to 255.</param>
/// <param name="Ridge">The same for all of the ridge.</param>
/// <param name="Valley">The same for the valley.</param>
/// <param name="ColumnLitS">For each column, starts and ends of the time in which it counts as lit, in seconds after the chart's start.</param>
/// <param name="ValleyShare">Share of the whole valley that is lit, one value a minute; null where none is visible.</param>
/// <param name="ValleyShadedS">Starts and ends of the time in which the valley counts as shaded; the whole of it where none is visible.</param>
/// <param name="SunAzimuthDeg">Of the sun at the lookout, one value a minute.</param>
/// <param name="SunAltitudeDeg">Its apparent altitude there.</param>
public sealed record ChartAnswer(
    string Start, double LengthS, int Minutes, double FromDeg, double ColumnDeg, int Columns, IReadOnlyList<bool> HasRidge, byte[] Crest,
    byte[] Ridge, byte[] Valley, IReadOnlyList<IReadOnlyList<double>> ColumnLitS, IReadOnlyList<double>? ValleyShare,
    IReadOnlyList<double> ValleyShadedS, IReadOnlyList<double> SunAzimuthDeg, IReadOnlyList<double> SunAltitudeDeg)
{
    private const double MinuteS = 60;

    /// <summary>What has one value a minute for the whole ridge; null where its light was not worked out.</summary>
    public ChartMinutesAnswer? ByMinute { get; init; }

    public static ChartAnswer Of(LightChart chart, RidgeBrightness? ridge = null, Haze? haze = null)
    {
        ArgumentNullException.ThrowIfNull(chart);
        var (track, scene) = (chart.Track, chart.Scene);
        var seconds = Enumerable.Range(0, chart.Minutes).Select(minute => minute * MinuteS).ToList();
        var sun = seconds.ConvertAll(second => Sun.At(track.At(second)).SeenFrom(scene.Lookout));
        return new ChartAnswer(
            Moments.Utc(track.Interval.Start), Math.Round(track.LengthS, 2), chart.Minutes, scene.Span.From.Degrees, scene.View.ColumnWidth.Degrees,
            scene.Columns, [.. chart.CrestLit.Select(crest => crest is not null)],
            chart.MeanDiscShares(role => role == PatchRole.Crest),
            chart.MeanDiscShares(role => role is PatchRole.Crest or PatchRole.Ridge),
            chart.MeanDiscShares(role => role == PatchRole.Valley),
            [.. chart.ColumnLit.Select(EndsOf)],
            chart.Valley is { } valley ? seconds.ConvertAll(second => Math.Round(valley.At(second), 4)) : null,
            EndsOf(chart.ValleyShaded ?? [new Stretch(0, track.LengthS)]),
            sun.ConvertAll(seen => Math.Round(seen.Azimuth.Degrees, 2)),
            sun.ConvertAll(seen => Math.Round(Refraction.ToApparent(seen.AirlessAltitude, scene.Lookout.Height).Degrees, 2)))
        {
            ByMinute = ridge is null ? null : ChartMinutesAnswer.Of(chart, ridge, haze ?? Haze.None),
        };
    }

    /// <summary>Starts and ends in turn, to a hundredth of a second.</summary>
    internal static List<double> EndsOf(IEnumerable<Stretch> stretches) =>
        [.. stretches.SelectMany(stretch => (double[])[Math.Round(stretch.StartS, 2), Math.Round(stretch.EndS, 2)])];
}
