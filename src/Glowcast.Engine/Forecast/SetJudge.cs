using Glowcast.Engine.Light;

namespace Glowcast.Engine.Forecast;

/// <summary>The one judge of whether sets have their light: for any start how many exposures have it, what fails first, and the chance
/// that all have it.</summary>
/// <remarks>An exposure that opens o and closes c seconds after the start, and whose frame has light from a to b, allows
/// starts from a − o to b − c; what all exposures allow are the possible starts (docs/model.md, F3). Season, forecast, remedies,
/// card and page ask here and nowhere else.</remarks>
internal sealed class SetJudge
{
    private const double Same = 1e-6;

    private readonly SetSequence sets;
    private readonly List<FrameLight> frames;
    private readonly EdgeDoubts doubts;
    private readonly ChanceBounds bounds;

    public SetJudge(JudgedDay day, JudgedWindow window, SetSequence sets)
    {
        (this.sets, doubts, bounds, Window) = (sets, day.Doubts, day.Wishes.Bounds, window);
        frames = [.. sets.Parts.Select(part => new FrameLight(window.Span, window.Stretch, part.Layout))];
        var possible = PossibleStarts().FindAll(start => start.StartS < window.Stretch.EndS && start.EndS + sets.TotalS > window.Stretch.StartS);
        Ranges = possible.Count > 0 ? possible.ConvertAll(Bounded) : Missing() is { } missing ? [missing] : [];
        Best = Ranges.MaxBy(range => range.LengthS);
    }

    public JudgedWindow Window { get; }

    /// <summary>The stretches of possible starts; where there is none, one of negative length; none at all where a frame never has light.</summary>
    public IReadOnlyList<StartRange> Ranges { get; }

    /// <summary>The longest of them.</summary>
    public StartRange? Best { get; }

    public bool IsPossible => Best is { IsPossible: true };

    /// <summary>The chance that every exposure has its light, from a start; no higher than may be claimed where something cannot be known.</summary>
    public double ChanceOf(double startS) => RangeAt(startS) is { } range ? Held(range, startS) : 0;

    /// <summary>The chance by one stretch of starts, held down where something cannot be known.</summary>
    public double Held(StartRange range, double startS) => Math.Min(range.ChanceOf(startS), MostOf(range));

    /// <summary>A chance from there is held down for what cannot be known.</summary>
    public bool IsCapped(double startS) => RangeAt(startS) is { } range && range.ChanceOf(startS) > MostOf(range);

    /// <summary>The stretch of possible starts that a start is judged by: the one that gives it the best chance.</summary>
    public StartRange? RangeAt(double startS) => Ranges.MaxBy(range => (range.ChanceOf(startS), -DistanceS(range, startS)));

    /// <summary>The exposures that miss their light from a start, in the order they are made.</summary>
    public IEnumerable<PlannedShot> MissedFrom(double startS) => sets.Shots.Where(shot => !frames[shot.Part].Holds(shot.Exposure.Column, shot.From(startS)));

    public FrameProblem ProblemOf(PlannedShot shot, double startS) => frames[shot.Part].ProblemOf(shot.Exposure.Column, shot.From(startS));

    /// <summary>The columns of the span that a frame shows.</summary>
    public IReadOnlyList<int> ColumnsOf(PlannedShot shot) => frames[shot.Part].ColumnsOf(sets.Parts[shot.Part].Layout, shot.Exposure.Column);

    /// <summary>Where to begin all the same when no start is possible: late enough for every frame that has light in the window at all,
    /// so that the set fails where that light has gone.</summary>
    public double LeastLossS()
    {
        var opens = sets.Shots.Select(shot => (Shot: shot, Light: BestLight(shot)))
            .Where(entry => entry.Light is { } light && light.StartS < Window.Stretch.EndS && light.EndS > Window.Stretch.StartS)
            .Select(entry => entry.Light!.Value.StartS - entry.Shot.OpensS).ToList();
        return Math.Clamp(opens.Count > 0 ? opens.Max() : Window.Stretch.StartS, 0, Window.Span.LengthS);
    }

    /// <summary>The most that is claimed of a stretch of starts. Where the grid ends towards the sun, but ground like its own there would hardly matter, a set may still
    /// be said to fit, and no more; of a ridge that is not seen nothing is claimed.</summary>
    private double MostOf(StartRange range) => !Window.IsRidgeSeen ? 0
        : range.IsUnknown ? bounds.UnknownMost
        : range.IsUnknownBeyond ? Math.Max(bounds.Fits, bounds.UnknownMost)
        : 1;

    private static double DistanceS(StartRange range, double startS) => Math.Max(0, Math.Max(range.First.StartS - startS, startS - range.Last.StartS));

    private List<Stretch> PossibleStarts()
    {
        var starts = new List<Stretch> { new(0, Window.Span.LengthS) };
        foreach (var shot in sets.Shots)
        {
            starts = Stretch.Common(starts, [.. Good(shot).Select(good => new Stretch(good.StartS - shot.OpensS, good.EndS - shot.ClosesS)).Where(start => start.LengthS > 0)]);
            if (starts.Count == 0) break;
        }
        return starts;
    }

    private IReadOnlyList<Stretch> Good(PlannedShot shot) => frames[shot.Part].Good(shot.Exposure.Column);

    private StartRange Bounded(Stretch starts)
    {
        var (first, last) = (new StartEdge(starts.StartS, 0, true, sets.Shots[0]), new StartEdge(starts.EndS, Window.Span.LengthS, true, sets.Shots[^1]));
        foreach (var shot in sets.Shots)
        {
            foreach (var good in Good(shot))
            {
                if (Math.Abs(good.StartS - shot.OpensS - starts.StartS) < Same) first = Opening(shot, good.StartS);
                if (Math.Abs(good.EndS - shot.ClosesS - starts.EndS) < Same) last = Closing(shot, good.EndS);
            }
        }
        return Between(first, last);
    }

    /// <summary>What all exposures come nearest to allowing; null where a frame has no light at all.</summary>
    private StartRange? Missing()
    {
        StartEdge? first = null, last = null;
        foreach (var shot in sets.Shots)
        {
            if (BestLight(shot) is not { } light) return null;
            var (opening, closing) = (Opening(shot, light.StartS), Closing(shot, light.EndS));
            if (first is null || opening.StartS > first.Value.StartS) first = opening;
            if (last is null || closing.StartS < last.Value.StartS) last = closing;
        }
        return Between(first!.Value, last!.Value);
    }

    /// <summary>Of a frame's light, what shares most time with the window, or lies nearest to it.</summary>
    private Stretch? BestLight(PlannedShot shot) => Good(shot) is { Count: > 0 } good
        ? good.MaxBy(stretch => Math.Min(stretch.EndS, Window.Stretch.EndS) - Math.Max(stretch.StartS, Window.Stretch.StartS))
        : null;

    private StartEdge Opening(PlannedShot shot, double lightS) => new(
        lightS - shot.OpensS, lightS, frames[shot.Part].RidgeLit(shot.Exposure.Column).Any(lit => lit.StartS == lightS), shot);

    private StartEdge Closing(PlannedShot shot, double lightS) => new(
        lightS - shot.ClosesS, lightS, frames[shot.Part].RidgeLit(shot.Exposure.Column).Any(lit => lit.EndS == lightS), shot);

    private StartRange Between(StartEdge first, StartEdge last) => new(first, last, doubts);
}
