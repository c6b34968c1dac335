using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Looks from one eye along one bearing after another for what stands above everything nearer.</summary>
/// <remarks>Stretches whose highest ground cannot reach above the horizon so far are passed over whole, long ones where the
/// last one was passed over; elsewhere the ground is looked at in steps of half a cell, four at once. Mutable, for one thread.</remarks>
internal sealed class SurfaceSweep(ElevationGrid grid, SightModel model, Place eye, double stepShare = 1)
{
    private const int ShortestStretch = 16;
    private const int LongestStretch = 512;
    private const int FirstHalfCell = 2;
    private const int Lanes = 4;

    // Rounding of the comparison that passes a stretch over [m].
    private const double SlackM = 1e-6;

    private readonly CellPath path = new(grid.Posts);
    private readonly double stepM = stepShare * grid.Posts.CellSize.Metres / 2;
    private readonly int firstStep = (int)Math.Round(FirstHalfCell / stepShare);
    private readonly double eyeM = eye.Height.Metres;
    private readonly double drop = model.DropPerMetre;
    private readonly int lastColumn = grid.Posts.Columns - 1;
    private readonly int lastRow = grid.Posts.Rows - 1;

    // A post beside a hole still has its height, but its cells have no maximum.
    private readonly MaximumPyramid? maxima = grid.Relief.Holes == 0 ? grid.Maxima : null;

    private VisibleStep[] visible = new VisibleStep[1024];
    private int count;
    private double greatest;

    public VisibleColumn Along(Azimuth bearing)
    {
        path.Aim(eye.Point.Latitude.Radians, eye.Point.Longitude.Radians, bearing.Radians);
        (count, greatest) = (0, double.NegativeInfinity);
        var edge = StepOffTheGrid();
        var samples = new VisibleSamples(visible[..count], stepM, eyeM, drop);
        return new VisibleColumn(bearing, samples, stepM, Length.FromMetres((edge - 1) * stepM));
    }

    /// <summary>Goes outwards piece by piece of the path.</summary>
    /// <returns>The first step outside the grid.</returns>
    private int StepOffTheGrid()
    {
        for (var step = firstStep; ;)
        {
            ref readonly var piece = ref path.PieceAt(step * stepM);
            var end = Math.Max(step, (int)(piece.EndM / stepM)) + 1;
            for (var length = ShortestStretch; step < end;)
            {
                var next = Math.Min(step + length, end);
                if (IsHidden(piece, step, next - 1)) length = Math.Min(2 * length, LongestStretch);
                else if (next - step > ShortestStretch)
                {
                    length /= 2;
                    continue;
                }
                else if (Look(piece, step, next) is { } outside) return outside;
                step = next;
            }
        }
    }

    /// <summary>Whether the highest ground between two steps stays at or below the horizon so far.</summary>
    private bool IsHidden(in CellArc piece, int first, int last)
    {
        if (maxima is null || count == 0) return false;
        var (startM, endM) = (first * stepM, last * stepM);
        var (start, middle, end) = (piece.At(startM), piece.At((startM + endM) / 2), piece.At(endM));
        // A geodesic bends in the grid; its greatest distance from the chord is near the middle.
        var bulgeX = 1.01 * Math.Abs(middle.X - ((start.X + end.X) / 2));
        var bulgeY = 1.01 * Math.Abs(middle.Y - ((start.Y + end.Y) / 2));
        var (left, right) = (Math.Min(start.X, end.X) - bulgeX, Math.Max(start.X, end.X) + bulgeX);
        var (top, bottom) = (Math.Min(start.Y, end.Y) - bulgeY, Math.Max(start.Y, end.Y) + bulgeY);
        if (!(left >= 0 && right <= lastColumn && top >= 0 && bottom <= lastRow)) return false;
        var above = maxima.UpperBound((int)left, (int)top, (int)right, (int)bottom) - eyeM;
        return above + SlackM <= (greatest + (startM * drop)) * (above > 0 ? startM : endM);
    }

    /// <returns>The first step outside the grid; null where there is none.</returns>
    private int? Look(in CellArc piece, int from, int to)
    {
        var step = from;
        for (; step + Lanes <= to && LookAtFour(piece, step); step += Lanes) { }
        for (; step < to; step++)
        {
            var cell = piece.At(step * stepM);
            if (!(cell.X >= 0 && cell.X <= lastColumn && cell.Y >= 0 && cell.Y <= lastRow)) return step;
            Consider(step, (float)grid.HeightAtCells(cell.X, cell.Y));
        }
        return null;
    }

    /// <returns>False where one of the four lies off the grid or beside a hole; nothing is done then.</returns>
    private bool LookAtFour(in CellArc piece, int step)
    {
        var metres = (Vector256.Create((double)step) + Vector256<double>.Indices) * stepM;
        var (x, y) = piece.At(metres);
        var isInside = Vector256.GreaterThanOrEqual(x, Vector256<double>.Zero) & Vector256.LessThanOrEqual(x, Vector256.Create((double)lastColumn))
            & Vector256.GreaterThanOrEqual(y, Vector256<double>.Zero) & Vector256.LessThanOrEqual(y, Vector256.Create((double)lastRow));
        if (!Vector256.EqualsAll(isInside.AsInt64(), Vector256<long>.AllBitsSet)) return false;
        var heights = HeightsAt(x, y);
        if (!Vector256.EqualsAll(heights, heights)) return false;
        var slope = (heights - Vector256.Create(eyeM)) / metres;
        var tangent = SightTangent(slope, metres);
        if (!Vector256.GreaterThanAny(tangent, Vector256.Create(greatest))) return true;
        Keep(step, heights[0], tangent[0]);
        Keep(step + 1, heights[1], tangent[1]);
        Keep(step + 2, heights[2], tangent[2]);
        Keep(step + 3, heights[3], tangent[3]);
        return true;
    }

    /// <summary>As <see cref="ElevationGrid.HeightAtCells"/> has them, to single precision; but NaN too where a hole has no weight.</summary>
    private Vector256<double> HeightsAt(Vector256<double> x, Vector256<double> y)
    {
        var column = Vector256.Min(Vector256.Floor(x), Vector256.Create((double)lastColumn - 1));
        var row = Vector256.Min(Vector256.Floor(y), Vector256.Create((double)lastRow - 1));
        var (u, v) = (x - column, y - row);
        var (nw, ne, sw, se) = Corners((row * (lastColumn + 1.0)) + column);
        var one = Vector256<double>.One;
        var heights = ((one - u) * (one - v) * nw) + (u * (one - v) * ne) + ((one - u) * v * sw) + (u * v * se);
        return Vector256.WidenLower(Vector256.Narrow(heights, heights));
    }

    /// <summary>The corners of the cells to the south-east of four posts.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private (Vector256<double> NW, Vector256<double> NE, Vector256<double> SW, Vector256<double> SE) Corners(Vector256<double> post)
    {
        ref var ground = ref MemoryMarshal.GetReference(grid.BareHeights);
        ref var a = ref Unsafe.Add(ref ground, (nint)post.GetElement(0));
        ref var b = ref Unsafe.Add(ref ground, (nint)post.GetElement(1));
        ref var c = ref Unsafe.Add(ref ground, (nint)post.GetElement(2));
        ref var d = ref Unsafe.Add(ref ground, (nint)post.GetElement(3));
        // A NaN is not lower, and stays.
        var floor = Vector256.Create(grid.FloorM);
        var (nw, ne) = Apart(Vector256.Create(Pair(ref a), Pair(ref b), Pair(ref c), Pair(ref d)));
        var south = lastColumn + 1;
        var (sw, se) = Apart(Vector256.Create(
            Pair(ref Unsafe.Add(ref a, south)), Pair(ref Unsafe.Add(ref b, south)), Pair(ref Unsafe.Add(ref c, south)), Pair(ref Unsafe.Add(ref d, south))));
        return (nw, ne, sw, se);

        static long Pair(ref float post) => Unsafe.ReadUnaligned<long>(ref Unsafe.As<float, byte>(ref post));

        (Vector256<double> West, Vector256<double> East) Apart(Vector256<long> pairs)
        {
            var sorted = Vector256.Shuffle(pairs.AsSingle(), Vector256.Create(0, 2, 4, 6, 1, 3, 5, 7));
            sorted = Vector256.ConditionalSelect(Vector256.LessThan(sorted, floor), floor, sorted);
            return (Vector256.WidenLower(sorted), Vector256.WidenUpper(sorted));
        }
    }

    // The tangent of the apparent angle to first order in the drop.
    private Vector256<double> SightTangent(Vector256<double> slope, Vector256<double> metres) =>
        slope - (metres * drop * (Vector256<double>.One + (slope * slope)));

    private void Consider(int step, double heightM)
    {
        var metres = step * stepM;
        var slope = (heightM - eyeM) / metres;
        Keep(step, heightM, slope - (metres * drop * (1 + (slope * slope))));
    }

    /// <summary>A NaN, beside a hole, is never greater.</summary>
    private void Keep(int step, double heightM, double tangent)
    {
        if (!(tangent > greatest)) return;
        if (count == visible.Length) Array.Resize(ref visible, 2 * count);
        (greatest, visible[count]) = (tangent, new VisibleStep(step, (float)heightM));
        count++;
    }
}
