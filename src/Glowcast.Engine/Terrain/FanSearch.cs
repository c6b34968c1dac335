using System.Numerics;
using System.Runtime.Intrinsics;

namespace Glowcast.Engine.Terrain;

/// <summary>Finds the greatest tangent of the ground on each of eight rays.</summary>
/// <remarks>Squares of ground that could not stand above the best so far are passed over, the larger the farther out; what remains is
/// walked step by step. So no ground on a ray is missed, and the better the guesses to begin with, the less is looked at.</remarks>
internal ref struct FanSearch
{
    // Next to the squares of one size come those of four times the size, and each of them holds four of the others on the way.
    private const int LevelsDown = 2;
    private const int Children = 1 << LevelsDown;
    private const int LargestLevel = MaximumPyramid.FirstLevel + (2 * LevelsDown);

    private readonly FanRays rays;
    private readonly Vector256<float> ceiling;
    private readonly int largest;

    private Vector256<float> best;
    private Vector256<int> at;

    // On this step a ray leaves the grid; −1 where that was not looked at.
    private Vector256<int> leavesAt;

    private FanCrossing here;
    private int hereLine;

    /// <param name="lastLevel">Squares of ground of 2^this cells are the largest there are.</param>
    /// <param name="floor">Tangents no greater than these are of no interest.</param>
    /// <param name="ceiling">One above its ceiling is answer enough.</param>
    public FanSearch(FanRays rays, int lastLevel, Vector256<float> floor, Vector256<float> ceiling)
    {
        this.rays = rays;
        this.ceiling = ceiling;
        (best, at, leavesAt, hereLine) = (floor, Vector256.Create(-1), Vector256.Create(-1), int.MinValue);
        largest = Math.Min(LargestLevel, MaximumPyramid.FirstLevel + ((lastLevel - MaximumPyramid.FirstLevel) / LevelsDown * LevelsDown));
    }

    /// <summary>The greatest tangents so far.</summary>
    public readonly Vector256<float> Best => best;

    /// <summary>How far the ground is that has them [m], to a step; NaN where none has.</summary>
    public readonly Vector256<float> BestM => Vector256.ConditionalSelect(
        Vector256.GreaterThanOrEqual(at, Vector256<int>.Zero).AsSingle(), rays.MetresAt(at), Vector256.Create(float.NaN));

    // Nothing more is to be found where the best is above the ceiling.
    private readonly Vector256<float> Bar =>
        Vector256.ConditionalSelect(Vector256.GreaterThan(best, ceiling), Vector256.Create(float.PositiveInfinity), best);

    /// <summary>Looks at likely ground first, about so far away [m]; NaN for no guess.</summary>
    public void Guess(Vector256<float> metres)
    {
        var isGuess = Vector256.Equals(metres, metres);
        if (Vector256.EqualsAll(isGuess, Vector256<float>.Zero)) return;
        var line = Vector256.ConditionalSelect(isGuess.AsInt32(), rays.LinesAt(metres), Vector256.Create(-2));
        Take(rays.At(line), line - Vector256.Create(rays.Forward));
    }

    public void Run()
    {
        // The nearest ground that counts begins within a cell.
        var nearest = rays.NearestLines;
        Take(rays.Exactly(nearest, best), nearest);
        var level = MaximumPyramid.FirstLevel;
        var square = CellBeyond(rays.FirstLine) >> level;
        while (rays.GoOn(NearEdge(level, square), Bar))
        {
            if (level == largest)
            {
                Look(level, square, Children);
                square += Children * rays.Forward;
                continue;
            }
            // To where a square of the next size begins, and then through as many as one of them holds.
            var more = rays.Forward > 0 ? Children - (square & (Children - 1)) : (square & (Children - 1)) + 1;
            Look(level, square, more);
            Look(level, square + (more * rays.Forward), Children);
            (level, square) = (level + LevelsDown, (square + ((more + Children) * rays.Forward)) >> LevelsDown);
        }

        // The edges of cells have been looked at; now the ground between them, beside what stands highest.
        best = rays.Exactly(at, best);
        best = rays.Exactly(at + Vector256.Create(rays.Forward), best);
        if (Vector256.GreaterThanOrEqualAny(leavesAt, Vector256<int>.Zero)) Take(rays.Exactly(leavesAt, best), leavesAt);
    }

    private void Look(int level, int square, int count)
    {
        var promising = rays.Promising(level, square, count, NearEdge(level, square), Bar);
        for (; promising != 0; promising &= promising - 1)
        {
            var next = square + (BitOperations.TrailingZeroCount(promising) * rays.Forward);
            if (level == MaximumPyramid.FirstLevel) Walk(NearEdge(level, next));
            else Look(level - LevelsDown, (next << LevelsDown) + (rays.Forward > 0 ? 0 : Children - 1), Children);
        }
    }

    private void Walk(int line)
    {
        var stretch = rays.Stretch(line, 1 << MaximumPyramid.FirstLevel);
        var last = hereLine == line ? here : rays.Crossing(line, stretch, 0);
        for (var i = 1; i <= 1 << MaximumPyramid.FirstLevel; i++)
        {
            var next = rays.Crossing(line + rays.Forward, stretch, i);
            if (rays.OnEdges(last, next, stretch, best, out var found)) Take(found, Vector256.Create(line));
            leavesAt = Vector256.ConditionalSelect(Vector256.AndNot(last.IsInside, next.IsInside), Vector256.Create(line), leavesAt);
            (last, line) = (next, line + rays.Forward);
        }
        (here, hereLine) = (last, line);
    }

    private void Take(Vector256<float> found, Vector256<int> line)
    {
        var isBetter = Vector256.GreaterThan(found, best);
        best = Vector256.ConditionalSelect(isBetter, found, best);
        at = Vector256.ConditionalSelect(isBetter.AsInt32(), line, at);
    }

    private readonly int CellBeyond(int line) => rays.Forward > 0 ? line : line - 1;

    /// <summary>The line of posts by which the rays enter a row of squares.</summary>
    private readonly int NearEdge(int level, int square) => (square + (rays.Forward > 0 ? 0 : 1)) << level;
}
