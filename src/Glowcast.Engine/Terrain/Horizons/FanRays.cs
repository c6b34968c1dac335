using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Glowcast.Engine.Terrain;

/// <summary>Eight rays, each from an eye of its own, that cross the same lines of posts: where they cross them, and the
/// tangents of the ground there.</summary>
/// <remarks>Only additions, products, quotients, roots and comparisons: the same answer to the last bit on every machine.</remarks>
internal sealed unsafe class FanRays
{
    // A ray along the posts, or along the edge of the grid, may miss them by rounding [cells].
    private const float Slack = 1e-4f;

    private readonly float* heights;
    private readonly Vector256<float> floorM;
    private readonly Vector256<float> drop;
    private readonly Vector256<float> nearestM;

    private FanGround ground;
    private RayWays ways;
    private int forward;
    private int major;
    private float leastAhead;
    private Vector256<float> ahead;
    private Vector256<int> minor;
    private Vector256<float> minorPart;
    private Vector256<float> eyeM;
    private Vector256<int> lastCell;
    private Vector256<int> minorStride;
    private Vector256<float> stepsToEdge;

    /// <param name="heights">Row-major heights [m] of the ground, held in place as long as the rays are used.</param>
    /// <param name="drop">By which a metre of distance lowers the ground [rad/m].</param>
    /// <param name="nearestM">Nearer ground does not count.</param>
    public FanRays(float* heights, FanGround ground, float drop, float nearestM)
    {
        this.heights = heights;
        this.ground = ground;
        (this.drop, this.nearestM, floorM) = (Vector256.Create(drop), Vector256.Create(nearestM), Vector256.Create(ground.FloorM));
    }

    /// <param name="ground">The same heights, along the axis of the ways.</param>
    public void Aim(FanGround ground, in RayWays ways, in FanEyes eyes)
    {
        (this.ground, this.ways, forward) = (ground, ways, eyes.Forward);
        (major, leastAhead, ahead, minor, minorPart, eyeM) = (eyes.Major, eyes.LeastAhead, eyes.Ahead, eyes.Minor, eyes.MinorPart, eyes.HeightM);
        (lastCell, minorStride) = (Vector256.Create(ground.Minors - 2), Vector256.Create(ground.MinorStride));
        var toEnd = Vector256.Create((float)(forward > 0 ? ground.Majors - 1 - major : major)) - ahead;
        var fromSide = Vector256.ConvertToSingle(minor) + minorPart;
        stepsToEdge = Vector256.MinNative(toEnd, ways.StepsToSide(Vector256.Create(ground.Minors - 1f) - fromSide, -fromSide));
    }

    public int Forward => forward;

    /// <summary>The line of posts behind which no ground counts yet.</summary>
    public int FirstLine => major + ((int)MathF.Floor(ways.NearestSteps + leastAhead) * forward);

    /// <summary>The lines of posts from which the steps set out that hold the nearest ground that counts.</summary>
    public Vector256<int> NearestLines =>
        Vector256.Create(major) + (Vector256.ConvertToInt32Native(Vector256.Floor(ways.StepsTo(nearestM) + ahead)) * forward);

    /// <summary>The lines of posts nearest to distances [m] on the rays.</summary>
    public Vector256<int> LinesAt(Vector256<float> metres) =>
        Vector256.Create(major) + (Vector256.ConvertToInt32(ways.StepsTo(metres) + ahead + Vector256.Create(0.5f)) * forward);

    /// <summary>How far the rays have come at a line of posts each [m].</summary>
    public Vector256<float> MetresAt(Vector256<int> line) => ways.MetresAfter(Steps(line));

    /// <summary>False when past a line of posts the rays have left the grid, or no ground up to its edge could beat the best so far.</summary>
    public bool GoOn(int line, Vector256<float> best)
    {
        var from = Vector256.MaxNative(Vector256<float>.Zero, Steps(line));
        return CouldBeat(
            Vector256.Create(ground.HighestM) - eyeM, Vector256.MaxNative(nearestM, ways.MetresAfter(from)), ways.MetresAfter(stepsToEdge), best,
            Vector256.LessThan(from, stepsToEdge).AsInt32());
    }

    /// <summary>The part of the rays from a line of posts over some steps, as if it were straight.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public FanStretch Stretch(int line, int steps)
    {
        var k0 = Steps(line);
        var (k1, share) = (k0 + Vector256.Create((float)steps), 1f / steps);
        var (y0, m0) = (minorPart + ways.AsideAfter(k0), ways.MetresAfter(k0));
        var asideStep = (minorPart + ways.AsideAfter(k1) - y0) * share;
        return new FanStretch(y0, asideStep, Vector256<float>.One / asideStep, m0, (ways.MetresAfter(k1) - m0) * share);
    }

    /// <summary>A bit for each of some rows of squares of 2^level cells that follow one another outwards, in which a ray may meet ground that stands
    /// above the best so far.</summary>
    /// <param name="line">The line of posts by which the rays enter the first one.</param>
    // All are asked before any is looked into: without a branch between them the processor works on several at once.
    public uint Promising(int level, int square, int count, int line, Vector256<float> best)
    {
        var steps = 1 << level;
        var net = ground.SquaresOf(level);
        // Room for the bend of the ways, and for the rounding of places counted from the edge of the grid.
        var room = 5e-3f + (ways.Bend * steps * steps);
        // A ray that goes aside by more than it goes on touches three.
        var isThree = (ways.Steepest * steps) + (2 * room) > steps;
        var margin = Vector256.Create(room);
        var fromEdge = Vector256.ConvertToSingle(minor) + minorPart;
        var (below, above) = (fromEdge - margin, fromEdge + margin);
        var from = Steps(line);
        var (y0, m0, found) = (ways.AsideAfter(from), ways.MetresAfter(from), 0u);
        for (var i = 0; i < count; i++)
        {
            var to = from + Vector256.Create((float)steps);
            var (y1, m1) = (ways.AsideAfter(to), ways.MetresAfter(to));
            // Cut off towards zero: what lies before the first row of cells by no more than the margin is taken for that row.
            var low = Vector256.ConvertToInt32Native(Vector256.MinNative(y0, y1) + below);
            var high = Vector256.ConvertToInt32Native(Vector256.MaxNative(y0, y1) + above);
            var heightM = net.Highest(square + (i * forward), low, high, isThree);
            var couldBeat = WhereCouldBeat(heightM - eyeM, Vector256.MaxNative(nearestM, m0), m1, best, Vector256.LessThan(from, stepsToEdge).AsInt32());
            found |= Math.Min(1u, couldBeat.ExtractMostSignificantBits()) << i;
            (from, y0, m0) = (to, y1, m1);
        }
        return found;
    }

    /// <summary>The tangents of the ground where the rays cross a line of posts each; −∞ where none counts.</summary>
    public Vector256<float> At(Vector256<int> line) => Line(Crossing(line));

    /// <summary>Where the rays cross the line of posts after i steps of a stretch.</summary>
    /// <param name="line">That line.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public FanCrossing Crossing(int line, in FanStretch stretch, float i)
    {
        var (at, aside) = (Vector256.Create(i), Vector256.FusedMultiplyAdd(stretch.AsideStep, Vector256.Create(i), stretch.Aside));
        var cell = CellOf(aside);
        var row = minor + cell;
        var isInside = (uint)line < (uint)ground.Majors ? IsWithin(row, lastCell) : Vector256<int>.Zero;
        var index = (Vector256.Create(line * ground.MajorStride) + (row * minorStride)) & isInside;
        return new FanCrossing(cell, aside, Vector256.FusedMultiplyAdd(stretch.MetresStep, at, stretch.Metres), isInside, Height(index), Height(index + minorStride));
    }

    /// <summary>Takes the tangents where the rays cross the edges of cells, from a line of posts over some steps: those greater than the best so far,
    /// with the line from which the step sets out.</summary>
    // Without a branch, and with little to keep: mirrored where they go down, all rays go up, and leave a cell by its far post.
    public void Walk(int line, int steps, ref Vector256<float> best, ref Vector256<int> at)
    {
        // The outermost squares reach beyond the grid, before the eye as well as at the far end.
        var (begin, stop) = (Math.Clamp(line, 0, ground.Majors - 1), Math.Clamp(line + (steps * forward), 0, ground.Majors - 1));
        (line, steps) = (begin, Math.Abs(stop - begin));
        if (steps == 0) return;
        var stretch = Stretch(line, steps);
        var sign = stretch.AsideStep.AsInt32() & Vector256.Create(int.MinValue);
        var isDown = sign >> 31;
        var (y0, asideStep) = ((stretch.Aside.AsInt32() ^ sign).AsSingle(), (stretch.AsideStep.AsInt32() ^ sign).AsSingle());
        var perAside = (stretch.PerAside.AsInt32() ^ sign).AsSingle();
        var onwards = (minorStride ^ isDown) - isDown;
        var index = minor * minorStride;
        // Rows of cells, mirrored too, in the grid.
        var firstRow = Vector256.ConvertToSingle(Vector256.ConditionalSelect(isDown, minor - lastCell - Vector256<int>.One, -minor));
        var lastRow = firstRow + Vector256.ConvertToSingle(lastCell);
        var (lower, upper) = (firstRow - Vector256.Create(Slack), lastRow + Vector256.Create(1 + Slack));

        var one = Vector256<float>.One;
        var post = heights + ((long)line * ground.MajorStride);
        var row = Vector256.MaxNative(firstRow, Vector256.MinNative(lastRow, Vector256.Floor(y0)));
        var far = Height(post, index + (Vector256.ConvertToInt32Native(row) * onwards) + onwards);
        var (i, from) = (Vector256<float>.Zero, Vector256.Create(line));
        var (highest, highestAt) = (best, at);
        for (var step = 0; step < steps; step++)
        {
            post += (long)ground.MajorStride * forward;
            i += one;
            var (aside, metres) = (Vector256.FusedMultiplyAdd(asideStep, i, y0), Vector256.FusedMultiplyAdd(stretch.MetresStep, i, stretch.Metres));
            var last = row;
            row = Vector256.MaxNative(firstRow, Vector256.MinNative(lastRow, Vector256.Floor(aside)));
            var cell = index + (Vector256.ConvertToInt32Native(row) * onwards);
            var (near, before) = (Height(post, cell), far);
            far = Height(post, cell + onwards);
            // So far into the cell; and so many steps ago at its edge, between the posts that both lines have there.
            var part = aside - row;
            var ago = part * perAside;
            var edgeM = metres - (ago * stretch.MetresStep);
            var onLine = Tangent(Vector256.FusedMultiplyAdd(far - near, part, near), metres);
            var onEdge = Tangent(Vector256.FusedMultiplyAdd(before - near, ago, near), edgeM);
            var isInside = Vector256.GreaterThanOrEqual(aside, lower) & Vector256.LessThanOrEqual(aside, upper);
            var isLine = Vector256.GreaterThan(onLine, highest) & Vector256.GreaterThanOrEqual(metres, nearestM) & isInside;
            highest = Vector256.ConditionalSelect(isLine, onLine, highest);
            // A step over two edges has no posts in common with its lines.
            var isOver = Vector256.Equals(row, last + one);
            var isEdge = Vector256.GreaterThan(onEdge, highest) & Vector256.GreaterThanOrEqual(edgeM, nearestM) & isInside & isOver;
            highest = Vector256.ConditionalSelect(isEdge, onEdge, highest);
            highestAt = Vector256.ConditionalSelect((isLine | isEdge).AsInt32(), from, highestAt);
            from += Vector256.Create(forward);
        }
        (best, at) = (highest, highestAt);
    }

    /// <summary>The line from which rays make the step that leads out of the grid, where that is one of some steps from a line on.</summary>
    public Vector256<int> LeavingAmong(int line, int steps, Vector256<int> otherwise)
    {
        var since = stepsToEdge - Steps(line);
        var isAmong = Vector256.GreaterThanOrEqual(since, Vector256<float>.Zero) & Vector256.LessThan(since, Vector256.Create((float)steps));
        return Vector256.ConditionalSelect(isAmong.AsInt32(), Vector256.Create(line) + (Vector256.ConvertToInt32Native(since) * forward), otherwise);
    }

    /// <summary>False when no ground on the step of a stretch from one crossing to the next could stand above the best so far.</summary>
    /// <param name="line">From which the step sets out.</param>
    // Over a cell the ground is a + b·t + c·t²: it stands above the straight line between its ends by |c|/4 at most.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public bool CouldRise(int line, in FanCrossing here, in FanCrossing next, in FanStretch stretch, Vector256<float> best)
    {
        if (ground.HasHoles) return true;
        var (change, edge) = (next.Cell - here.Cell, Vector256.Max(here.Cell, next.Cell));
        var isSame = Vector256.Equals(change, Vector256<int>.Zero);
        var (post0, post1) = (here.Post(edge), next.Post(edge));
        // Where the ray changes to another row of cells, each of the lines has one post more.
        var (back, ahead) = (PostOn(line, edge + change), PostOn(line + forward, edge - change));
        var (alongHere, alongNext, way) = (here.After - here.Before, next.After - next.Before, Vector256.ConvertToSingle(change));
        var twist = Vector256.Abs(Vector256.ConditionalSelect(isSame.AsSingle(), alongNext, way * (post1 - ahead)) - alongHere);
        twist = Vector256.MaxNative(twist, Vector256.Abs(alongNext - Vector256.ConditionalSelect(isSame.AsSingle(), alongHere, way * (back - post0))));
        var t = (Vector256.ConvertToSingle(edge) - here.Aside) * stretch.PerAside;
        var onEdge = OverM(Vector256.FusedMultiplyAdd(t, post1 - post0, post0), Vector256.FusedMultiplyAdd(t, stretch.MetresStep, here.Metres), best);
        var over = Vector256.MaxNative(OverM(here.HeightM, here.Metres, best), OverM(next.HeightM, next.Metres, best));
        over = Vector256.ConditionalSelect(isSame.AsSingle(), over, Vector256.MaxNative(over, onEdge));
        // And the sight line bends away by a hair in between.
        const float Hair = 0.005f;
        var rises = Vector256.GreaterThan(Vector256.FusedMultiplyAdd(twist * 0.25f, Vector256.Abs(stretch.AsideStep), over), Vector256.Create(-Hair)).AsInt32();
        // At the edge of the grid, and over three rows of cells, these posts are not all.
        rises |= Vector256.GreaterThan(Vector256.Abs(change), Vector256<int>.One) | (here.IsInside ^ next.IsInside);
        return (rises & (here.IsInside | next.IsInside)) != Vector256<int>.Zero;
    }

    /// <summary>By how much ground of these heights stands above these tangents [m], nearly.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Vector256<float> OverM(Vector256<float> heightM, Vector256<float> metres, Vector256<float> best) =>
        heightM - eyeM - (Vector256.FusedMultiplyAdd(metres, drop, best) * metres);

    /// <summary>The greatest tangents on single steps from a line of posts each to the next, exact but for the way's bend within the step; the
    /// best so far where nothing there is greater.</summary>
    public Vector256<float> Exactly(Vector256<int> line, Vector256<float> best) =>
        Exactly(line, Crossing(line), Crossing(line + Vector256.Create(forward)), best);

    /// <summary>The same on the step from one crossing to the next.</summary>
    /// <inheritdoc cref="Exactly(Vector256{int}, Vector256{float})"/>
    public Vector256<float> Exactly(Vector256<int> line, in FanCrossing here, in FanCrossing next, Vector256<float> best)
    {
        var step = new Step(here.Aside, next.Aside, here.Metres, next.Metres);
        // Nearer ground than the least distance is cut off.
        var from = Vector256.MaxNative(Vector256<float>.Zero, (nearestM - here.Metres) / (next.Metres - here.Metres));
        if (Vector256.EqualsAll(here.Cell, next.Cell)) return InCell(here.Cell, here.Posts, next.Posts, step, from, Vector256<float>.One, best);
        var isUp = Vector256.GreaterThan(next.Cell, here.Cell);
        var to = ToEdge(here.Cell, next.Cell, isUp, step, from);
        best = InCell(here.Cell, here.Posts, PostsOn(line + Vector256.Create(forward), here.Cell), step, from, to, best);
        // Of a ray that goes aside by more than it goes on, there may be rows of cells between.
        var last = Vector256.ConditionalSelect(here.IsInside | next.IsInside, next.Cell, here.Cell);
        if (Vector256.GreaterThanAny(Vector256.Abs(last - here.Cell), Vector256<int>.One)) best = InRowsBetween(line, here.Cell, last, isUp, step, ref to, best);
        return InCell(next.Cell, PostsOn(line, next.Cell), next.Posts, step, to, Vector256<float>.One, best);
    }

    private Vector256<float> InRowsBetween(
        Vector256<int> line, Vector256<int> cell, Vector256<int> last, Vector256<int> isUp, in Step step, ref Vector256<float> to, Vector256<float> best)
    {
        var onwards = Vector256<int>.Zero - (isUp | Vector256<int>.One);
        while (Vector256.GreaterThanAny(Vector256.Abs(last - cell), Vector256<int>.One))
        {
            cell += Vector256.AndNot(onwards, Vector256.Equals(cell, last));
            var from = to;
            to = ToEdge(cell, last, isUp, step, from);
            best = InCell(cell, PostsOn(line, cell), PostsOn(line + Vector256.Create(forward), cell), step, from, to, best);
        }
        return best;
    }

    /// <summary>When on a step the ray leaves a row of cells by its upper or its lower edge; at the end of the step in the last row.</summary>
    private static Vector256<float> ToEdge(Vector256<int> cell, Vector256<int> last, Vector256<int> isUp, in Step step, Vector256<float> from)
    {
        var toEdge = (Vector256.ConvertToSingle(cell - isUp) - step.Aside0) / (step.Aside1 - step.Aside0);
        toEdge = Vector256.ConditionalSelect(Vector256.Equals(cell, last).AsSingle(), Vector256<float>.One, toEdge);
        return Vector256.MaxNative(from, Vector256.MinNative(Vector256<float>.One, toEdge));
    }

    /// <summary>The tangents of a smooth earth past the edge of the grid, as <see cref="SmoothEarth.Horizon"/> has it.</summary>
    /// <returns>And how far it stands there [m].</returns>
    public (Vector256<float> Tangent, Vector256<float> Metres) Beyond(Vector256<float> heightM)
    {
        var below = eyeM - heightM;
        var tangentM = Vector256.Sqrt(Vector256.MaxNative(below, Vector256<float>.Zero) / drop);
        var metres = Vector256.MaxNative(Vector256.MaxNative(ways.MetresAfter(stepsToEdge), nearestM), tangentM);
        return (RayTangent.Of(-below / metres, metres * drop), metres);
    }

    /// <param name="near">The posts of the cell on the step's first line.</param>
    /// <param name="far">And on its second one.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Vector256<float> InCell(
        Vector256<int> cell, in FanPosts near, in FanPosts far, in Step step, Vector256<float> begin, Vector256<float> end, Vector256<float> best)
    {
        var isInside = near.IsInside & far.IsInside & Vector256.LessThan(begin, end).AsInt32();
        var highestM = Vector256.MaxNative(Vector256.MaxNative(near.Before, near.After), Vector256.MaxNative(far.Before, far.After));
        if (!CouldBeat(highestM - eyeM, Vector256.MaxNative(nearestM, step.Metres0), step.Metres1, best, isInside)) return best;
        var (alongNear, alongFar) = (near.After - near.Before, far.After - far.Before);
        var (v0, dv) = (step.Aside0 - Vector256.ConvertToSingle(cell), step.Aside1 - step.Aside0);
        var over = new Parabola(
            near.Before + (v0 * alongNear) - eyeM, far.Before - near.Before + (v0 * (alongFar - alongNear)) + (dv * alongNear), dv * (alongFar - alongNear));
        // Elsewhere the step, or the row of cells, before has looked at the same ground.
        if (Vector256.GreaterThanAny(begin, Vector256<float>.Zero)) best = OnWay(begin, over, step, isInside, best);
        best = OnWay(end, over, step, isInside, best);
        var vertex = Vector256.MinNative(end, Vector256.MaxNative(begin, Vertex(over, step.Metres0, step.Metres1)));
        return OnWay(vertex, over, step, isInside, best);
    }

    private Vector256<float> OnWay(Vector256<float> t, in Parabola over, in Step step, Vector256<int> isInside, Vector256<float> best)
    {
        var metres = step.Metres0 + (t * (step.Metres1 - step.Metres0));
        var tangent = RayTangent.Of((over.A + (t * (over.B + (t * over.C)))) / metres, metres * drop);
        return RayTangent.Greater(best, Masked(tangent, isInside));
    }

    /// <summary>Where the tangent is greatest: in metres of distance s it is A/s + B + (C − drop)·s, so at s = √(A/(C − drop)) where both are
    /// negative; elsewhere some number, or none.</summary>
    private Vector256<float> Vertex(in Parabola over, Vector256<float> fromM, Vector256<float> toM)
    {
        var perMetre = Vector256<float>.One / (toM - fromM);
        var c = over.C * perMetre * perMetre;
        var b = (over.B * perMetre) - (c * fromM * 2f);
        var a = over.A - (fromM * (b + (fromM * c)));
        var t = (Vector256.Sqrt(a / (c - drop)) - fromM) * perMetre;
        return Vector256.ConditionalSelect(Vector256.Equals(t, t), t, Vector256<float>.Zero);
    }

    /// <summary>False when ground so far above the eye, anywhere between two distances, stands above none of the best tangents so far.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private bool CouldBeat(Vector256<float> above, Vector256<float> fromM, Vector256<float> toM, Vector256<float> best, Vector256<int> isInside) =>
        WhereCouldBeat(above, fromM, toM, best, isInside) != Vector256<int>.Zero;

    /// <summary>All bits where it may stand above.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Vector256<int> WhereCouldBeat(Vector256<float> above, Vector256<float> fromM, Vector256<float> toM, Vector256<float> best, Vector256<int> isInside)
    {
        var metres = Vector256.ConditionalSelect(Vector256.GreaterThan(above, Vector256<float>.Zero), fromM, toM);
        var cannotBeat = Vector256.LessThanOrEqual(above, Vector256.FusedMultiplyAdd(fromM, drop, best) * metres);
        return Vector256.AndNot(isInside, cannotBeat.AsInt32());
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Vector256<float> Line(in FanCrossing crossing) => Counting(Tangent(crossing.HeightM, crossing.Metres), crossing.Metres, crossing.IsInside);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Vector256<float> Tangent(Vector256<float> heightM, Vector256<float> metres) => RayTangent.Of((heightM - eyeM) / metres, metres * drop);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Vector256<float> Counting(Vector256<float> tangent, Vector256<float> metres, Vector256<int> isInside) =>
        Masked(tangent, isInside & Vector256.GreaterThanOrEqual(metres, nearestM).AsInt32());

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<float> Masked(Vector256<float> tangent, Vector256<int> isInside) =>
        Vector256.ConditionalSelect(isInside.AsSingle(), tangent, Vector256.Create(float.NegativeInfinity));

    private FanCrossing Crossing(Vector256<int> line)
    {
        var k = Steps(line);
        var aside = minorPart + ways.AsideAfter(k);
        var cell = CellOf(aside);
        var posts = PostsOn(line, cell);
        return new FanCrossing(cell, aside, ways.MetresAfter(k), posts.IsInside, posts.Before, posts.After);
    }

    /// <summary>A post on the lower edge of a row of cells, counted from the eye's, on a line; off the grid some other.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Vector256<float> PostOn(int line, Vector256<int> cell)
    {
        var row = Vector256.Max(Vector256<int>.Zero, Vector256.Min(minor + cell, lastCell + Vector256<int>.One));
        return Height(Vector256.Create(Math.Clamp(line, 0, ground.Majors - 1) * ground.MajorStride) + (row * minorStride));
    }

    /// <summary>The posts on either side of rows of cells, counted from the eye's, on a line each.</summary>
    private FanPosts PostsOn(Vector256<int> line, Vector256<int> cell)
    {
        var row = minor + cell;
        var isInside = IsWithin(line, Vector256.Create(ground.Majors - 1)) & IsWithin(row, lastCell);
        var index = ((line * ground.MajorStride) + (row * minorStride)) & isInside;
        return new FanPosts(isInside, Height(index), Height(index + minorStride));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Vector256<float> Steps(int line) => Vector256.Create((float)((line - major) * forward)) - ahead;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Vector256<float> Steps(Vector256<int> line) => Vector256.ConvertToSingle((line - Vector256.Create(major)) * forward) - ahead;

    /// <summary>The row of cells, counted from the eye's, that holds a minor offset; on the outermost posts the one inside.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Vector256<int> CellOf(Vector256<float> aside)
    {
        var floor = Vector256.Floor(aside + Vector256.Create(Slack));
        var cell = Vector256.ConvertToInt32Native(floor);
        var isOnEdge = Vector256.Equals(cell + minor, lastCell + Vector256<int>.One)
            & Vector256.LessThanOrEqual(aside - floor, Vector256.Create(Slack)).AsInt32();
        return cell + isOnEdge;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<int> IsWithin(Vector256<int> value, Vector256<int> last) =>
        Vector256.LessThanOrEqual(value.AsUInt32(), last.AsUInt32()).AsInt32();

    /// <summary>The heights of eight posts [m].</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    // In this order a hole, NaN, stays one.
    private Vector256<float> Height(Vector256<int> index) => Height(heights, index);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private Vector256<float> Height(float* from, Vector256<int> index) => Vector256.MaxNative(floorM, EightValues.At(from, index));

    /// <summary>Height over the eye on a step: a + b·t + c·t² [m], t from 0 to 1.</summary>
    private readonly record struct Parabola(Vector256<float> A, Vector256<float> B, Vector256<float> C);

    /// <summary>One step of the eight rays: minor offsets [cells] and distances [m] at its two ends.</summary>
    private readonly record struct Step(
        Vector256<float> Aside0, Vector256<float> Aside1, Vector256<float> Metres0, Vector256<float> Metres1);
}

/// <summary>A part of eight rays: at its first line of posts the minor offset [cells] and the distance [m], and what a step adds to them.</summary>
/// <param name="PerAside">The steps that it takes to go aside by a cell.</param>
internal readonly record struct FanStretch(
    Vector256<float> Aside, Vector256<float> AsideStep, Vector256<float> PerAside, Vector256<float> Metres, Vector256<float> MetresStep);

/// <summary>Posts on either side of eight rows of cells, on a line each.</summary>
/// <param name="IsInside">All bits where both are in the grid.</param>
/// <param name="Before">On the lower edge of the row [m].</param>
/// <param name="After">And on its upper one.</param>
internal readonly record struct FanPosts(Vector256<int> IsInside, Vector256<float> Before, Vector256<float> After);

/// <summary>Where eight rays cross lines of posts.</summary>
/// <param name="Cell">The row of cells, counted from the eye's.</param>
/// <param name="Aside">Minor offset from the eye's row [cells].</param>
/// <param name="Metres">Distance [m].</param>
/// <param name="IsInside">All bits where that is in the grid.</param>
/// <param name="Before">The post on the lower edge of the row [m].</param>
/// <param name="After">And on its upper one.</param>
internal readonly record struct FanCrossing(
    Vector256<int> Cell, Vector256<float> Aside, Vector256<float> Metres, Vector256<int> IsInside, Vector256<float> Before, Vector256<float> After)
{
    public FanPosts Posts => new(IsInside, Before, After);

    public Vector256<float> HeightM
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        get => Vector256.FusedMultiplyAdd(After - Before, Aside - Vector256.ConvertToSingle(Cell), Before);
    }

    /// <summary>The post on the lower edge where that is the one asked for, else the one on the upper edge.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vector256<float> Post(Vector256<int> edge) => Vector256.ConditionalSelect(Vector256.Equals(edge, Cell).AsSingle(), Before, After);
}
