using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Glowcast.Engine.Terrain;

/// <summary>Finds the greatest tangent of the ground on each of eight rays.</summary>
/// <remarks>Squares of ground that could not stand above the best so far are passed over, the larger the farther out; what remains is
/// walked step by step: where the rays cross the edges of cells, or exactly. The better the guesses to begin with, the less is looked at.</remarks>
internal ref struct FanSearch
{
    // Next to the squares of one size come those of four times the size, and each of them holds four of the others on the way.
    private const int LevelsDown = 2;
    private const int Children = 1 << LevelsDown;
    private const int LargestLevel = MaximumPyramid.FirstLevel + (2 * LevelsDown);

    private readonly FanRays rays;
    private readonly Vector256<float> ceiling;
    private readonly int largest;
    private readonly bool isExact;

    private Vector256<float> best;
    private Vector256<int> at;

    // On this step a ray leaves the grid; −1 where that was not looked at.
    private Vector256<int> leavesAt;

    /// <param name="lastLevel">Squares of ground of 2^this cells are the largest there are.</param>
    /// <param name="floor">Tangents no greater than these are of no interest.</param>
    /// <param name="ceiling">One above its ceiling is answer enough.</param>
    /// <param name="isExact">Whether the ground between the edges of cells is looked at everywhere, or only beside what stands highest.</param>
    public FanSearch(FanRays rays, int lastLevel, Vector256<float> floor, Vector256<float> ceiling, bool isExact)
    {
        (this.rays, this.ceiling, this.isExact) = (rays, ceiling, isExact);
        (best, at, leavesAt) = (floor, Vector256.Create(-1), Vector256.Create(-1));
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
        if (!isExact) return;
        TakeExactly(at);
        TakeExactly(at + Vector256.Create(rays.Forward));
    }

    public void Run()
    {
        // The nearest ground that counts begins within a cell.
        TakeExactly(rays.NearestLines);
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

        if (isExact) return;
        // The edges of cells have been looked at; now the ground between them, beside what stands highest.
        TakeExactly(at);
        TakeExactly(at + Vector256.Create(rays.Forward));
        if (Vector256.GreaterThanOrEqualAny(leavesAt, Vector256<int>.Zero)) TakeExactly(leavesAt);
    }

    private void Look(int level, int square, int count)
    {
        var promising = rays.Promising(level, square, count, NearEdge(level, square), Bar);
        for (; promising != 0; promising &= promising - 1)
        {
            var next = square + (BitOperations.TrailingZeroCount(promising) * rays.Forward);
            if (level != MaximumPyramid.FirstLevel) Look(level - LevelsDown, (next << LevelsDown) + (rays.Forward > 0 ? 0 : Children - 1), Children);
            else if (isExact) WalkExactly(NearEdge(level, next));
            else Walk(NearEdge(level, next));
        }
    }

    // Apart from the search for squares, each has the registers to itself.
    [MethodImpl(MethodImplOptions.NoInlining)]
    private void Walk(int line)
    {
        rays.Walk(line, 1 << MaximumPyramid.FirstLevel, ref best, ref at);
        leavesAt = rays.LeavingAmong(line, 1 << MaximumPyramid.FirstLevel, leavesAt);
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private void WalkExactly(int line)
    {
        var stretch = rays.Stretch(line, 1 << MaximumPyramid.FirstLevel);
        var last = rays.Crossing(line, stretch, 0);
        for (var i = 1; i <= 1 << MaximumPyramid.FirstLevel; i++)
        {
            var (step, next) = (Vector256.Create(line), rays.Crossing(line + rays.Forward, stretch, i));
            if (rays.CouldRise(line, last, next, stretch, best)) Take(rays.Exactly(step, last, next, best), step);
            (last, line) = (next, line + rays.Forward);
        }
    }

    private void TakeExactly(Vector256<int> line) => Take(rays.Exactly(line, best), line);

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
