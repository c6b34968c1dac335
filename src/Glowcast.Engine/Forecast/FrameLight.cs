using Glowcast.Engine.Capture;
using Glowcast.Engine.Light;

namespace Glowcast.Engine.Forecast;

/// <summary>When each frame of a set has its light: the ridge on its own bearings lit, and the valley in shade.</summary>
internal sealed class FrameLight
{
    private readonly LightChart chart;
    private readonly List<Stretch>[] ridge;
    private readonly List<Stretch>[] both;

    public FrameLight(LightChart chart, SetLayout layout)
    {
        this.chart = chart;
        var thresholds = chart.Scene.Thresholds;
        var shaded = chart.Valley?.AtMost(thresholds.ValleyLit);
        // Frames of one column look along the same bearings, whatever their row.
        ridge = [.. Enumerable.Range(0, layout.ColumnsWithSpares).Select(column => RidgeLit(layout.FrameAt(0, column), layout.Field.Horizontal.Degrees / 2))];
        both = Array.ConvertAll(ridge, lit => shaded is null ? lit : Stretch.Common(lit, shaded));
    }

    /// <summary>When the frames of a column have all they need; the whole day where they show no ridge and no valley counts.</summary>
    public List<Stretch> Good(int column) => both[column];

    public FrameProblem ProblemAt(int column, double seconds)
    {
        var isRidgeLit = ridge[column].Exists(stretch => stretch.StartS <= seconds && seconds < stretch.EndS);
        if (!isRidgeLit) return ridge[column].Exists(stretch => stretch.StartS > seconds) ? FrameProblem.RidgeNotYetLit : FrameProblem.RidgeNoLongerLit;
        return both[column].Exists(stretch => stretch.StartS > seconds) ? FrameProblem.ValleyNotYetShaded : FrameProblem.ValleyLit;
    }

    private List<Stretch> RidgeLit(Frame frame, double halfWidthDeg)
    {
        var inside = Enumerable.Range(0, chart.Scene.Columns).Where(column =>
            chart.CrestLit[column] is not null
            && Math.Abs(frame.Bearing.TurnTo(chart.Scene.View.Columns[column].Bearing).Degrees) <= halfWidthDeg).ToList();
        return inside.Count == 0
            ? [new Stretch(0, chart.Track.LengthS)]
            : ShareOverTime.Of(inside.Select(column => ((IReadOnlyList<Stretch>)chart.ColumnLit[column], 1.0)), chart.Track.LengthS)
                .AtLeast(chart.Scene.Thresholds.ColumnsLit);
    }
}
