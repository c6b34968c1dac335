using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Forecast;

/// <summary>Some of the bearings of a chart by themselves, as a forecast of that span alone would see them.</summary>
internal static class SpanPart
{
    /// <summary>The day's light on part of its span: its own ridge, the valley under it, and the windows that both make.</summary>
    public static JudgedDay Of(LightOfDay day, BearingSpan part)
    {
        var (chart, whole) = (day.Chart, day.Span);
        var columns = Enumerable.Range(0, whole.Bearings.Count).Where(column => part.Contains(whole.Bearings[column])).ToHashSet();
        var span = whole with
        {
            Lit = [.. whole.Lit.Select((lit, column) => columns.Contains(column) ? lit : null)],
            Shaded = day.Kind == PictureKind.LitRidgeOverDarkGround ? chart.ValleyShadedOf(columns.Contains) : whole.Shaded,
            Ridge = day.Kind.AsksOfBearings() ? chart.RidgeLitOf(columns.Contains) : whole.Ridge,
        };
        var ridge = span.RidgeLit();
        var windows = span.Shaded is { } shaded ? Stretch.Common(ridge, shaded) : ridge;
        var judged = JudgedDay.Of(day);
        var (length, dark) = (chart.Track.LengthS, span.Without(day.Wishes.DarkStrips));
        return judged with
        {
            Windows = [.. windows.Where(window => window.LengthS >= 1).Select(window => new JudgedWindow(
                dark, window, (window.StartS + window.EndS) / 2 < length / 2 ? DayHalf.Morning : DayHalf.Evening, day.Ridge))],
        };
    }
}
