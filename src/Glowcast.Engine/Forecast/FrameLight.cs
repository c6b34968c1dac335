using Glowcast.Engine.Capture;
using Glowcast.Engine.Light;

namespace Glowcast.Engine.Forecast;

/// <summary>When each frame of a set has its light, in and around one window: the ridge on its own bearings lit, and the
/// valley in shade.</summary>
/// <remarks>Of a frame's ridge, those columns count that the sun reaches in the window at all; the share of them that
/// must be lit is the window's own. A frame of whose ridge less than half is ever reached has no light.</remarks>
public sealed class FrameLight
{
    private const double LeastReached = 0.5;

    private readonly LightChart chart;
    private readonly Stretch window;
    private readonly List<Stretch>[] ridge;
    private readonly List<Stretch>[] both;

    public FrameLight(LightChart chart, Stretch window, SetLayout layout)
    {
        ArgumentNullException.ThrowIfNull(chart);
        ArgumentNullException.ThrowIfNull(layout);
        (this.chart, this.window) = (chart, window);
        var shaded = chart.ValleyShaded;
        // Frames of one column look along the same bearings, whatever their row.
        ridge = [.. Enumerable.Range(0, layout.ColumnsWithSpares).Select(column => LitRidgeOf(layout.FrameAt(0, column), layout.Field.Horizontal.Degrees / 2))];
        both = Array.ConvertAll(ridge, lit => shaded is null ? lit : Stretch.Common(lit, shaded));
    }

    /// <summary>When the ridge of a column's frames is lit; the whole day where they show none.</summary>
    public IReadOnlyList<Stretch> RidgeLit(int column) => ridge[column];

    /// <summary>When the frames of a column have all they need; the whole day where they show no ridge.</summary>
    public IReadOnlyList<Stretch> Good(int column) => both[column];

    public FrameProblem ProblemAt(int column, double seconds)
    {
        if (ridge[column].Count == 0) return FrameProblem.RidgeNeverLit;
        if (!ridge[column].Exists(stretch => stretch.StartS <= seconds && seconds < stretch.EndS))
            return ridge[column].Exists(stretch => stretch.StartS > seconds) ? FrameProblem.RidgeNotYetLit : FrameProblem.RidgeNoLongerLit;
        return both[column].Exists(stretch => stretch.StartS > seconds) ? FrameProblem.ValleyNotYetShaded : FrameProblem.ValleyLit;
    }

    private List<Stretch> LitRidgeOf(Frame frame, double halfWidthDeg)
    {
        var shown = Enumerable.Range(0, chart.Scene.Columns).Where(column =>
            chart.CrestLit[column] is not null
            && Math.Abs(frame.Bearing.TurnTo(chart.Scene.View.Columns[column].Bearing).Degrees) <= halfWidthDeg).ToList();
        if (shown.Count == 0) return [new Stretch(0, chart.Track.LengthS)];
        var reached = shown.FindAll(column => chart.ColumnLit[column].Exists(lit => lit.StartS < window.EndS && lit.EndS > window.StartS));
        return reached.Count < LeastReached * shown.Count
            ? []
            : ShareOverTime.Of(reached.Select(column => ((IReadOnlyList<Stretch>)chart.ColumnLit[column], 1.0)), chart.Track.LengthS)
                .AtLeast(chart.Scene.Thresholds.ColumnsLit);
    }
}
