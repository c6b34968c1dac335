using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Glowcast.Engine.Terrain;

namespace Glowcast.Benchmarks;

/// <summary>The ground near to any post of a small block. From post to post the rays are the same but for the heights
/// they cross, and so the pieces of a ray, cell by cell, are worked out once for the whole block.</summary>
internal sealed class SweepNear
{
    private readonly List<NearPiece> pieces = [];

    /// <summary>The box of posts that the pieces touch, as offsets from the eye's post.</summary>
    public (int Left, int Top, int Right, int Bottom) Reach { get; private set; }

    /// <summary>Parts the way from a distance to a whole number of steps at the edges of cells.</summary>
    public void Aim(RayAxes axes, RayWay path, double fromM, int steps, double drop)
    {
        pieces.Clear();
        Reach = default;
        var start = path.StepsIn(fromM);
        for (var step = (int)start; step < steps; step++)
        {
            var (y0, y1) = (Snapped(path.AsideAfter(step)), Snapped(path.AsideAfter(step + 1)));
            var begin = Math.Max(start - step, 0);
            // Within one step the way is straight.
            while (begin < 1)
            {
                var y = y0 + (begin * (y1 - y0));
                var row = y1 < y0 ? (int)Math.Ceiling(y - 1e-9) - 1 : (int)Math.Floor(y + 1e-9);
                var edge = y1 < y0 ? row : row + 1;
                var end = y1 == y0 ? 1 : Math.Min(1, (edge - y0) / (y1 - y0));
                if (end > begin) Add(axes, new NearPiece(axes, path, drop, step, row, y0 - row, y1 - row, begin, end), step, row);
                begin = Math.Max(end, begin + 1e-9);
            }
        }
    }

    /// <summary>The greatest tangent seen from eight neighbours in a row, whose nearness lies within the grid.</summary>
    public Vector256<float> Highest(ReadOnlySpan<float> heights, int post)
    {
        ref var ground = ref MemoryMarshal.GetReference(heights);
        var eye = Vector256.LoadUnsafe(ref ground, (nuint)post);
        var best = Vector256.Create(float.NegativeInfinity);
        foreach (ref readonly var piece in CollectionsMarshal.AsSpan(pieces))
        {
            best = RayTangent.Greater(best, piece.Highest(
                eye,
                Vector256.LoadUnsafe(ref ground, (nuint)(post + piece.Near)),
                Vector256.LoadUnsafe(ref ground, (nuint)(post + piece.NearBeside)),
                Vector256.LoadUnsafe(ref ground, (nuint)(post + piece.Far)),
                Vector256.LoadUnsafe(ref ground, (nuint)(post + piece.FarBeside))));
        }
        return best;
    }

    private void Add(RayAxes axes, NearPiece piece, int step, int row)
    {
        pieces.Add(piece);
        var (major, far) = (axes.Forward * step, axes.Forward * (step + 1));
        var (low, high) = (Math.Min(major, far), Math.Max(major, far));
        var (left, right, top, bottom) = axes.ByRows ? (row, row + 1, low, high) : (low, high, row, row + 1);
        Reach = (Math.Min(Reach.Left, left), Math.Min(Reach.Top, top), Math.Max(Reach.Right, right), Math.Max(Reach.Bottom, bottom));
    }

    private static double Snapped(double y) => Math.Abs(y - Math.Round(y)) < 1e-6 ? Math.Round(y) : y;

    /// <summary>A straight piece of the way inside one cell.</summary>
    private readonly struct NearPiece
    {
        private readonly Station enters, middle, leaves;

        public NearPiece(RayAxes axes, RayWay path, double drop, int step, int row, double v0, double v1, double begin, double end)
        {
            Near = (axes.Forward * step * axes.MajorStride) + (row * axes.MinorStride);
            Far = Near + (axes.Forward * axes.MajorStride);
            NearBeside = Near + axes.MinorStride;
            FarBeside = Far + axes.MinorStride;
            enters = At(begin);
            middle = At((begin + end) / 2);
            leaves = At(end);

            Station At(double t) => new(t, v0 + (t * (v1 - v0)), path.MetresAfter(step + t), drop);
        }

        /// <summary>Where the four corners are from the eye, in the row-major array.</summary>
        public int Near { get; }

        public int NearBeside { get; }

        public int Far { get; }

        public int FarBeside { get; }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public Vector256<float> Highest(
            Vector256<float> eye, Vector256<float> near, Vector256<float> nearBeside, Vector256<float> far, Vector256<float> farBeside) =>
            RayTangent.Vertex(
                enters.Tangent(eye, near, nearBeside, far, farBeside),
                middle.Tangent(eye, near, nearBeside, far, farBeside),
                leaves.Tangent(eye, near, nearBeside, far, farBeside));
    }

    /// <summary>One place of a piece: the weights of the four corners there, and its distance from the eye.</summary>
    private readonly struct Station(double t, double v, double metres, double drop)
    {
        private readonly float near = (float)((1 - t) * (1 - v));
        private readonly float nearBeside = (float)((1 - t) * v);
        private readonly float far = (float)(t * (1 - v));
        private readonly float farBeside = (float)(t * v);
        private readonly float perMetre = (float)(1 / metres);
        private readonly float dropRad = (float)(metres * drop);

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public Vector256<float> Tangent(
            Vector256<float> eye, Vector256<float> n, Vector256<float> nb, Vector256<float> f, Vector256<float> fb) =>
            RayTangent.Of(((n * near) + (nb * nearBeside) + (f * far) + (fb * farBeside) - eye) * perMetre, Vector256.Create(dropRad));
    }
}
