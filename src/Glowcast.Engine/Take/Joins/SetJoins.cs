namespace Glowcast.Engine.Take;

/// <summary>Looks at every join of a set: along its rows, and between them.</summary>
/// <remarks>docs/model.md, Take eq. 24.</remarks>
internal sealed class SetJoins
{
    private const double NearStep = 0.1;
    private const double NearDown = 0.1;
    private const double LeastOverlap = 0.1;
    private const double LeastTurn = 0.08;
    private const double RowsMeet = 0.5;

    private readonly SessionFacts facts;
    private readonly SetRhythm rhythm;
    private readonly List<(int Row, List<List<int>> Places)> rows;
    private readonly double likeness;

    /// <param name="rowOf">The row a place of the set stands in, as rows lie above one another.</param>
    public SetJoins(SessionFacts facts, SetRhythm rhythm, AlignedSet set, Func<int, int> rowOf)
    {
        (this.facts, this.rhythm) = (facts, rhythm);
        rows = [.. set.Frames.GroupBy(frame => rowOf(frame.Position)).Select(row => (row.Key, row.GroupBy(frame => rhythm.FrameOf(frame.Position)).Select(place => place.Select(frame => frame.Frame).ToList()).ToList()))];
        var side = rows.SelectMany(row => row.Places.Zip(row.Places.Skip(1)).Select(pair => Best(pair.First, pair.Second))).ToList();
        Step = Usual(side.Where(join => join.Join.Kind == JoinKind.Beside).Select(join => Math.Abs(join.Join.Across))) ?? facts.Joins.UsualStep;
        var down = Usual(side.Where(join => join.Join.Kind == JoinKind.Beside).Select(join => join.Join.Down * Math.Sign(join.Join.Across))) ?? 0;
        likeness = Usual(side.Where(join => join.Join.IsSeen).Select(join => join.Join.Likeness)) ?? 1;
        Side = [.. rows.SelectMany(row => AlongRow(row.Places, down))];
        Between = [.. BetweenRows()];
    }

    /// <summary>Usual, from a frame to its neighbour, in widths of a frame.</summary>
    public double Step { get; }

    /// <summary>Along the rows, in the order they were shot.</summary>
    public IReadOnlyList<FoundJoin> Side { get; }

    /// <summary>Of frames above one another.</summary>
    public IReadOnlyList<FoundJoin> Between { get; }

    public IEnumerable<FoundJoin> All => Side.Concat(Between);

    /// <summary>All frames hang together by joins that are seen, no row goes to and fro, and rows that meet do so for the greater part.</summary>
    public bool CanBeStitched => Side.Concat(Between).All(join => join.IsSeen || (rows.Count > 1 && !join.IsHole)) && HangsTogether && rows.TrueForAll(GoesOneWay);

    private bool GoesOneWay((int Row, List<List<int>> Places) row) =>
        row.Places.Zip(row.Places.Skip(1)).Select(pair => Best(pair.First, pair.Second).Join).Where(join => join is { Kind: JoinKind.Beside, IsSure: true }).Select(join => Math.Sign(join.Across)).Distinct().Count() <= 1;

    private bool IsBeside(Join join, double down) =>
        join.Kind == JoinKind.Beside && join.Overlap >= LeastOverlap && Math.Abs(join.Across) >= LeastTurn
        && (join.IsSure || (Math.Abs(Math.Abs(join.Across) - Step) <= NearStep && Math.Abs((join.Down * Math.Sign(join.Across)) - down) <= NearDown));

    private IEnumerable<FoundJoin> AlongRow(List<List<int>> places, double down)
    {
        var way = WayOf(places);
        foreach (var (before, next) in places.Zip(places.Skip(1)))
        {
            var best = Best(before, next);
            if (!IsBeside(best.Join, down) && !best.Join.IsSure && way != 0)
            {
                var near = before.Zip(next).Select(pair => (pair.First, pair.Second, Join: facts.Joins.Near(pair.First, pair.Second, way * Step, way * down, likeness))).FirstOrDefault(pair => pair.Join is not null);
                if (near.Join is { } join) best = (near.First, near.Second, join);
            }
            yield return Found(best, betweenRows: false, IsBeside(best.Join, down));
        }
    }

    private int WayOf(List<List<int>> places) =>
        Math.Sign(places.Zip(places.Skip(1)).Sum(pair => Best(pair.First, pair.Second).Join is { Kind: JoinKind.Beside } join ? Math.Sign(join.Across) : 0));

    private (int From, int To, Join Join) Best(List<int> before, List<int> next)
    {
        (int From, int To, Join Join)? best = null;
        for (var shot = 0; shot < Math.Min(before.Count, next.Count); shot++)
        {
            var join = facts.Joins.Between(before[shot], next[shot]);
            if (best is not { } known || (join.IsSeen, join.Likeness).CompareTo((known.Join.IsSeen, known.Join.Likeness)) > 0) best = (before[shot], next[shot], join);
            if (join.IsSure) break;
        }
        return best!.Value;
    }

    private FoundJoin Found((int From, int To, Join Join) join, bool betweenRows, bool isSeen)
    {
        var (from, to) = (facts.Frames[join.From], facts.Frames[join.To]);
        double? brighter = isSeen ? SharedBrightness.Difference(from.View!, to.View!, join.Join) + to.Settings.ExposureStops - from.Settings.ExposureStops : null;
        return new FoundJoin(from, to, betweenRows, join.Join, isSeen, brighter);
    }

    // Frames above one another stand equally far from the left end of their rows, whichever way those were swept.
    private IEnumerable<FoundJoin> BetweenRows()
    {
        var ordered = rows.OrderBy(row => row.Row).Select(row => LeftToRight(row.Places)).ToList();
        foreach (var (upper, lower) in ordered.Zip(ordered.Skip(1)))
        {
            var pairs = upper.Zip(lower).Select(pair => Best(pair.First, pair.Second)).ToList();
            var seen = pairs.Where(pair => pair.Join.Kind == JoinKind.AboveOrBelow).ToList();
            var (down, across) = (Usual(seen.Select(pair => pair.Join.Down)) ?? 0, Usual(seen.Select(pair => pair.Join.Across)) ?? 0);
            var meet = seen.Count >= RowsMeet * pairs.Count;
            foreach (var pair in pairs)
            {
                var isNear = pair.Join.Kind == JoinKind.AboveOrBelow && pair.Join.Overlap >= LeastOverlap && Math.Abs(pair.Join.Down - down) <= NearDown && Math.Abs(pair.Join.Across - across) <= NearStep;
                // Where the rows meet, a single frame that does not is sky, cloud that moved, or dark: it hangs on its neighbours.
                var found = Found(pair, betweenRows: true, isNear);
                yield return meet && !isNear ? found with { Join = found.Join with { Kind = JoinKind.Faint } } : found;
            }
        }
    }

    private List<List<int>> LeftToRight(List<List<int>> places)
    {
        return WayOf(places) < 0 ? [.. Enumerable.Reverse(places)] : places;
    }

    private bool HangsTogether
    {
        get
        {
            var names = rows.SelectMany(row => row.Places).SelectMany(place => place).ToList();
            var group = names.ToDictionary(frame => facts.Frames[frame].Name, frame => frame);
            foreach (var place in rows.SelectMany(row => row.Places)) foreach (var frame in place) Merge(place[0], frame);
            foreach (var join in All.Where(join => join.IsSeen)) Merge(group[join.From.Name], group[join.To.Name]);
            return group.Values.Distinct().Count() == 1;

            void Merge(int a, int b)
            {
                var (from, to) = (group[facts.Frames[b].Name], group[facts.Frames[a].Name]);
                if (from == to) return;
                foreach (var name in group.Keys.Where(name => group[name] == from).ToList()) group[name] = to;
            }
        }
    }

    private static double? Usual(IEnumerable<double> values) => SessionFacts.Median(values);
}
