using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Light;

/// <summary>Why bearings of the ridge have no light in a window.</summary>
public enum UnlitReason
{
    /// <summary>The sun does not light them all day.</summary>
    ShadeAllDay,

    /// <summary>It does, but not in this window.</summary>
    LitAtAnotherTime,
}

/// <summary>Neighbouring bearings of the ridge that a window does not light: named, and without a say in it.</summary>
/// <param name="From">The left end.</param>
/// <param name="To">The right end.</param>
public sealed record UnlitBearings(Azimuth From, Azimuth To, UnlitReason Why)
{
    /// <summary>Those at least as wide as the plan's gap, from left to right.</summary>
    internal static IReadOnlyList<UnlitBearings> Of(LightChart chart, Stretch window)
    {
        var (found, width, gap) = (new List<UnlitBearings>(), chart.Scene.View.ColumnWidth, chart.Scene.Thresholds.UnlitGap);
        for (var first = 0; first < chart.Scene.Columns;)
        {
            var why = WhyUnlit(chart, first, window);
            var end = first + 1;
            while (end < chart.Scene.Columns && WhyUnlit(chart, end, window) == why) end++;
            if (why is { } reason && (width * (end - first)).Degrees >= gap.Degrees - 1e-9)
                found.Add(new UnlitBearings(chart.Scene.Span.From + (width * first), chart.Scene.Span.From + (width * end), reason));
            first = end;
        }
        return found;
    }

    /// <summary>The share of the ridge's columns that a window lights at some time.</summary>
    internal static double PictureShare(LightChart chart, Stretch window)
    {
        var ridge = Enumerable.Range(0, chart.Scene.Columns).Where(column => chart.CrestLit[column] is not null).ToList();
        return ridge.Count > 0 ? (double)ridge.Count(column => WhyUnlit(chart, column, window) is null) / ridge.Count : 0;
    }

    // Null where the column is lit, or shows no ridge.
    private static UnlitReason? WhyUnlit(LightChart chart, int column, Stretch window)
    {
        var lit = chart.ColumnLit[column];
        if (chart.CrestLit[column] is null || lit.Exists(stretch => stretch.StartS < window.EndS && stretch.EndS > window.StartS)) return null;
        return lit.Count == 0 ? UnlitReason.ShadeAllDay : UnlitReason.LitAtAnotherTime;
    }
}
