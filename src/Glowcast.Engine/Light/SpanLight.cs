using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Light;

/// <summary>When each bearing of a span is lit through a day and when its valley is in shade: all that a set is held against.</summary>
/// <remarks>Made of a light chart, or of the table of a season; whatever judges a set judges it over this. Times are seconds after
/// the start of the chart, or of the season's day.</remarks>
/// <param name="Bearings">Of the columns, from left to right.</param>
/// <param name="Lit">For each column, when it counts as lit; null where no ridge is visible.</param>
/// <param name="Shaded">When the valley is in shade; null where none is visible, or none is asked for.</param>
/// <param name="ColumnsLit">The share of a frame's columns that must be lit.</param>
/// <param name="LengthS">The moment after which nothing is said [s].</param>
public sealed record SpanLight(
    IReadOnlyList<Azimuth> Bearings, IReadOnlyList<IReadOnlyList<Stretch>?> Lit, IReadOnlyList<Stretch>? Shaded, double ColumnsLit, double LengthS)
{
    /// <summary>The stretches in which the sun climbs, and those in which it sinks.</summary>
    public IReadOnlyList<Stretch> Halves { get; init; } = [new Stretch(0, LengthS)];

    /// <summary>When enough of the ridge is lit, as the windows have it; null to be worked out from the columns.</summary>
    public IReadOnlyList<Stretch>? Ridge { get; init; }

    public static SpanLight Of(LightChart chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        var thresholds = chart.Scene.Thresholds;
        return new SpanLight(
            [.. chart.Scene.View.Columns.Select(column => column.Bearing)],
            [.. chart.CrestLit.Select((crest, column) => crest is null ? null : chart.Dark is { } dark ? Stretch.Common(chart.ColumnLit[column], dark) : chart.ColumnLit[column])],
            chart.ValleyShaded, thresholds.ColumnsLit, chart.Track.LengthS)
        {
            Halves = [.. chart.Ridge.Halves.Select(half => half.Time)],
            Ridge = chart.RidgeLit,
        };
    }

    /// <summary>The same with nothing asked of the ridge on some bearings.</summary>
    public SpanLight Without(IReadOnlyCollection<BearingSpan> dark) => dark.Count == 0
        ? this
        : this with { Ridge = null, Lit = [.. Lit.Select((lit, column) => dark.Any(strip => strip.Contains(Bearings[column])) ? null : lit)] };

    /// <summary>The half of the day in which a moment lies.</summary>
    public Stretch HalfAt(double seconds) => Halves.LastOrDefault(half => half.StartS <= seconds, Halves[0]);

    /// <summary>When enough columns of ridge are lit, whatever the valley does.</summary>
    public IReadOnlyList<Stretch> RidgeLit() => Ridge ?? ShareOverTime.Of(Lit.OfType<IReadOnlyList<Stretch>>().Select(lit => (lit, 1.0)), LengthS).AtLeast(ColumnsLit);
}
