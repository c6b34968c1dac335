using Glowcast.Engine.Capture;
using Glowcast.Engine.Light;

namespace Glowcast.Engine.Forecast;

/// <summary>When each frame of a set has its light, in and around one window: the ridge on its own bearings lit, and the
/// valley in shade.</summary>
/// <remarks>Of a frame's ridge, columns that the sun does not light all that half of the day have no say, as in the window (docs/model.md, L7); where none is left
/// it asks for nothing. Of the others those count that are lit in the window at all; the share of them that must be lit is the window's own. A frame of whose ridge
/// less than half is lit in the window has no light.</remarks>
public sealed class FrameLight
{
    private const double LeastReached = 0.5;

    private readonly SpanLight span;
    private readonly Stretch window;
    private readonly List<Stretch>[] ridge;
    private readonly List<Stretch>[] both;

    /// <inheritdoc cref="FrameLight(SpanLight, Stretch, SetLayout)"/>
    public FrameLight(LightChart chart, Stretch window, SetLayout layout) : this(SpanLight.Of(chart), window, layout)
    {
    }

    public FrameLight(SpanLight span, Stretch window, SetLayout layout)
    {
        ArgumentNullException.ThrowIfNull(span);
        ArgumentNullException.ThrowIfNull(layout);
        (this.span, this.window) = (span, window);
        // Frames of one column look along the same bearings, whatever their row.
        ridge = [.. Enumerable.Range(0, layout.ColumnsWithSpares).Select(column => LitRidgeOf(ColumnsOf(layout, column)))];
        both = Array.ConvertAll(ridge, lit => span.Shaded is null ? lit : Stretch.Common(lit, span.Shaded));
    }

    /// <summary>When the ridge of a column's frames is lit; the whole day where they show none.</summary>
    public IReadOnlyList<Stretch> RidgeLit(int column) => ridge[column];

    /// <summary>When the frames of a column have all they need; the whole day where they show no ridge.</summary>
    public IReadOnlyList<Stretch> Good(int column) => both[column];

    /// <summary>Whether a frame has its light for the whole of an exposure.</summary>
    public bool Holds(int column, Stretch exposure) => both[column].Exists(good => Covers(good, exposure));

    /// <summary>Why it has not.</summary>
    public FrameProblem ProblemOf(int column, Stretch exposure)
    {
        if (ridge[column].Count == 0) return FrameProblem.RidgeNeverLit;
        if (!ridge[column].Exists(lit => Covers(lit, exposure)))
            return ComesLater(ridge[column], exposure) ? FrameProblem.RidgeNotYetLit : FrameProblem.RidgeNoLongerLit;
        return ComesLater(both[column], exposure) ? FrameProblem.ValleyNotYetShaded : FrameProblem.ValleyLit;
    }

    /// <summary>The columns of the span on the bearings of a frame.</summary>
    public IReadOnlyList<int> ColumnsOf(SetLayout layout, int column)
    {
        ArgumentNullException.ThrowIfNull(layout);
        var (frame, halfWidthDeg) = (layout.FrameAt(0, column), layout.Field.Horizontal.Degrees / 2);
        return [.. Enumerable.Range(0, span.Bearings.Count)
            .Where(i => span.Lit[i] is not null && Math.Abs(frame.Bearing.TurnTo(span.Bearings[i]).Degrees) <= halfWidthDeg)];
    }

    private static bool Covers(Stretch light, Stretch exposure) => light.StartS <= exposure.StartS && exposure.EndS < light.EndS;

    // Light that goes while the shutter is open is light that has gone, even where more of it comes later.
    private static bool ComesLater(List<Stretch> light, Stretch exposure) =>
        !light.Exists(stretch => stretch.Contains(exposure.StartS)) && light.Exists(stretch => stretch.StartS > exposure.StartS);

    private List<Stretch> LitRidgeOf(IReadOnlyList<int> shown)
    {
        var half = span.HalfAt((window.StartS + window.EndS) / 2);
        shown = [.. shown.Where(column => IsLitIn(column, half))];
        if (shown.Count == 0) return [new Stretch(0, span.LengthS)];
        var reached = shown.Where(column => IsLitIn(column, window)).ToList();
        return reached.Count < LeastReached * shown.Count
            ? []
            : ShareOverTime.Of(reached.Select(column => (span.Lit[column]!, 1.0)), span.LengthS).AtLeast(span.ColumnsLit);
    }

    private bool IsLitIn(int column, Stretch time) => span.Lit[column]!.Any(lit => lit.StartS < time.EndS && lit.EndS > time.StartS);
}
