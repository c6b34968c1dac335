namespace Glowcast.Engine.Take;

/// <summary>Lays the frames of a session over the rhythm of a set, so that the whole is as likely as can be: which frames open
/// and end sets, which are missing, shot twice, or no part of any.</summary>
/// <remarks>
/// docs/model.md, Take eq. 8 and 9: a search over all layouts by dynamic programming. A state is a frame at a place of the set; it is
/// reached from the same place (shot again), from an earlier place (what lies between is missing), from a marker frame, or from
/// outside. Only times between frames enter, never the time of day: the error of a camera's clock does not matter.
/// </remarks>
internal sealed class Alignment
{
    private const int MostSinglesInARow = 3;
    private const int MostMissingInARow = 8;
    private const int FromOutside = -1;
    private const int FromMarker = -2;
    private const double Never = double.NegativeInfinity;

    // A state so much less likely than the best one of its frame leads nowhere.
    private const double Hopeless = 22;

    private readonly SessionFacts facts;
    private readonly SetRhythm rhythm;
    private readonly SeenPlaces? seen;
    private readonly Forbidden forbidden;
    private readonly int start;
    private readonly int count;
    private readonly bool isOneSet;
    private readonly bool hasMarkers;

    private readonly List<State>[] states;
    private readonly double[] marker;
    private readonly double[] outside;
    private readonly int[] ended;
    private readonly State[] offers;
    private readonly List<int> offered = [];
    private readonly ExpectedTime[] times;

    private Alignment(SessionFacts facts, Range range, SetRhythm rhythm, bool isOneSet, SeenPlaces? seen, Forbidden forbidden)
    {
        (this.facts, this.rhythm, this.isOneSet, this.seen, this.forbidden) = (facts, rhythm, isOneSet, seen, forbidden);
        (start, count) = range.GetOffsetAndLength(facts.Count);
        hasMarkers = facts.HasMarkers;
        states = new List<State>[count];
        marker = new double[count];
        outside = new double[count + 1];
        ended = new int[count + 1];
        offers = new State[rhythm.Length];
        Array.Fill(offers, new State(0, Never, 0, 0));
        times = [.. Enumerable.Range(0, rhythm.Length).SelectMany(from => Enumerable.Range(from + 1, MostMissingInARow + 1).Select(to =>
            new ExpectedTime(rhythm.BetweenS(from, to), rhythm.Spread(from, to), facts.ClockStepS)))];
    }

    /// <param name="range">Of the session's frames.</param>
    /// <param name="isOneSet">The user says that all of it is one set: none begins later.</param>
    /// <param name="seen">What the places of the set show, from an earlier layout; null where nothing is known.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static AlignedRun Best(
        SessionFacts facts, Range range, SetRhythm rhythm, bool isOneSet = false, SeenPlaces? seen = null, Forbidden? forbidden = null)
    {
        var alignment = new Alignment(facts, range, rhythm, isOneSet, seen, forbidden ?? new Forbidden());
        for (var frame = 0; frame < alignment.count; frame++)
        {
            facts.Stop.ThrowIfCancellationRequested();
            alignment.Reach(frame);
        }
        return alignment.Trace();
    }

    private void Reach(int frame)
    {
        var mayBegin = !isOneSet || frame == 0;
        marker[frame] = mayBegin
            ? outside[frame] + TakeOdds.Begins + TakeOdds.Marker(hasMarkers, true) + facts.MarkerOdds(start + frame) + BeforeSet(frame)
            : Never;
        if (start + frame != forbidden.Begin) Begin(frame, mayBegin);
        for (var before = frame - 1; before >= Math.Max(0, frame - 1 - MostSinglesInARow); before--) GoOn(before, frame);
        Keep(frame);
        Leave(frame);
    }

    private void Begin(int frame, bool fromOutside)
    {
        for (var position = 0; position <= Math.Min(MostMissingInARow, rhythm.Length - 1); position++)
        {
            var missing = position * TakeOdds.Missing;
            if (fromOutside)
                Offer(position, outside[frame] + TakeOdds.Begins + TakeOdds.Marker(hasMarkers, false) + missing + BeforeSet(frame) + Apart(frame), FromOutside, 0);
            for (var opener = frame - 1; opener >= Math.Max(0, frame - 1 - MostSinglesInARow); opener--)
            {
                if (marker[opener] == Never) continue;
                var expectedS = rhythm.MarkerStepS + rhythm.BetweenS(0, position);
                var after = TakeOdds.AfterMarker(Gap(opener, frame), expectedS, facts.ClockStepS);
                Offer(position, marker[opener] + missing + Singles(opener, frame) + after, FromMarker, opener);
            }
        }
    }

    private void GoOn(int before, int frame)
    {
        if (states[before].Count == 0 || JoinsOnBetween(before, frame)) return;
        var (a, b) = (start + before, start + frame);
        var gapS = Gap(before, frame);
        var logGap = ExpectedTime.LogOf(gapS, facts.ClockStepS);
        var isBroken = frame > before + 1;
        var difference = facts.Looks.Difference(a, b);
        var singles = Singles(before, frame) + (facts.SameGeometry(a, b) ? 0 : TakeOdds.OtherGeometry);
        var isLooked = facts.Joins.Between(a, b).Kind is not (JoinKind.NotLooked or JoinKind.Faint);
        var joined = isLooked ? JoinOdds.Of(facts, a, b) : default;
        var again = singles + TakeOdds.Twice + TakeOdds.AgainAfter(gapS, rhythm.StepS, facts.ClockStepS) + Alike(a, b, 0) + (isLooked ? joined.Same : TakeOdds.LooksTwice(difference));
        var turned = isLooked ? 0 : TakeOdds.LooksTurned(difference);
        var joins = isLooked ? joined.Turned : TakeOdds.Joins(facts.Looks.Mismatch(a, b));
        foreach (var state in states[before])
        {
            var from = state.Position;
            Offer(from, state.Score + again, before, from);
            for (var to = from + 1; to <= Math.Min(from + 1 + MostMissingInARow, rhythm.Length - 1); to++)
            {
                var expected = times[(from * (MostMissingInARow + 1)) + (to - from - 1)];
                var step = (isBroken ? expected.Broken(logGap) : expected.WithPause(logGap))
                    + ((to - from - 1) * TakeOdds.Missing)
                    + Alike(a, b, rhythm.LongerStops(from, to))
                    + (to == from + 1 && rhythm.FrameOf(from) != rhythm.FrameOf(to) ? turned : 0)
                    + facts.Numbers.Odds(a, b, to - from - 1)
                    + (rhythm.AreNeighbours(from, to) ? joins : Elsewhere(joined, from, to));
                Offer(to, state.Score + singles + step, before, from);
            }
        }
    }

    private double Elsewhere(JoinOdds joined, int from, int to) =>
        rhythm.FrameOf(from) == rhythm.FrameOf(to) ? joined.Same : rhythm.RowOf(from) == rhythm.RowOf(to) ? joined.Skipped : joined.RowChanged;

    // From the frame before, whatever it is: a set does not begin where the sweep goes on.
    private double Apart(int frame) => frame == 0 || facts.LooksLikeMarker(start + frame - 1) ? 0 : JoinOdds.Of(facts, start + frame - 1, start + frame).Apart;

    private void Offer(int position, double score, int before, int from)
    {
        if (score <= offers[position].Score) return;
        if (offers[position].Score == Never) offered.Add(position);
        offers[position] = new State(position, score, before, from);
    }

    private void Keep(int frame)
    {
        var asPicture = -Math.Max(0, facts.MarkerOdds(start + frame));
        var best = offered.Count == 0 ? Never : offered.Max(position => offers[position].Score);
        states[frame] = [.. offered.Select(position => offers[position]).Where(state => state.Score >= best - Hopeless)
            .Select(state => state with { Score = state.Score + asPicture + (seen?.Odds(start + frame, state.Position) ?? 0) })];
        foreach (var position in offered) offers[position] = new State(0, Never, 0, 0);
        offered.Clear();
    }

    // The best of all layouts that have no set open after this frame.
    private void Leave(int frame)
    {
        var single = facts.LooksLikeMarker(start + frame) ? TakeOdds.LooseMarker : TakeOdds.SingleBetween + Math.Min(0, Apart(frame));
        (outside[frame + 1], ended[frame + 1]) = (outside[frame] + single, -1);
        if (start + frame == forbidden.End) return;
        foreach (var state in states[frame])
        {
            var score = state.Score + Math.Max((rhythm.Length - 1 - state.Position) * TakeOdds.Missing, TakeOdds.BrokenOff);
            if (score > outside[frame + 1]) (outside[frame + 1], ended[frame + 1]) = (score, state.Position);
        }
    }

    private double Alike(int a, int b, double longerStops) =>
        TakeOdds.Exposure(facts.SameExposure(a, b, longerStops), rhythm.Shots > 1 ? 0 : facts.ExposureChanges);

    // Frames between two of a set that are no part of it.
    private double Singles(int before, int frame)
    {
        var sum = 0.0;
        for (var single = before + 1; single < frame; single++)
        {
            var isAlike = facts.SameGeometry(start + before, start + single) && facts.SameExposure(start + before, start + single, 0);
            sum += TakeOdds.SingleWithin + (isAlike ? TakeOdds.SingleAlike + TakeOdds.SingleLooks(facts.Looks.Difference(single - 1 + start, single + start)) : 0);
        }
        return sum;
    }

    // What lies between two frames and goes on from the one to the other is no picture by itself.
    private bool JoinsOnBetween(int before, int frame)
    {
        if (frame == before + 1) return false;
        for (var next = before + 1; next <= frame; next++)
            if (!facts.Joins.GoesOn(start + next - 1, start + next)) return false;
        return true;
    }

    private double BeforeSet(int frame) => frame == 0
        ? 0
        : TakeOdds.BeforeSet(Gap(frame - 1, frame), rhythm.SetStepS, facts.ClockStepS);

    private double Gap(int before, int frame) => facts.GapS(start + before, start + frame);

    private AlignedRun Trace()
    {
        var sets = new List<AlignedSet>();
        for (var open = count; open > 0;)
        {
            if (ended[open] < 0)
            {
                open--;
                continue;
            }
            var set = TraceSet(open - 1, ended[open]);
            sets.Add(set);
            open = (set.Marker ?? set.First) - start;
        }
        sets.Reverse();
        return new AlignedRun(outside[count], sets);
    }

    private AlignedSet TraceSet(int frame, int position)
    {
        var frames = new List<PlacedFrame>();
        while (true)
        {
            var state = states[frame].Find(state => state.Position == position);
            frames.Add(new PlacedFrame(start + frame, position, state.Before >= 0 && state.From == position));
            if (state.Before < 0)
            {
                frames.Reverse();
                return new AlignedSet(state.Before == FromMarker ? start + state.From : null, frames);
            }
            (frame, position) = (state.Before, state.From);
        }
    }

    /// <summary>A frame at a place of the set.</summary>
    /// <param name="Before">The frame it was reached from, or from where else.</param>
    /// <param name="From">That frame's place, or the marker frame.</param>
    private readonly record struct State(int Position, double Score, int Before, int From);
}
