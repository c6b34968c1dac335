using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Glowcast.Engine.Terrain;

/// <summary>Tangents of apparent angles, eight at once.</summary>
/// <remarks>Only additions, products, quotients and comparisons: the same answer to the last bit on every machine.</remarks>
internal static class RayTangent
{
    /// <summary>To first order in the drop (docs/model.md, T3).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<float> Of(Vector256<float> slope, Vector256<float> dropRad) =>
        slope - (dropRad * (Vector256<float>.One + (slope * slope)));

    /// <summary>The greatest value of the parabola through three equidistant ones; NaN where one of them is.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<float> Vertex(Vector256<float> first, Vector256<float> middle, Vector256<float> last)
    {
        var half = Vector256.Create(0.5f);
        var bend = ((first + last) * half) - middle;
        var tilt = (last - first) * half;
        var ends = Vector256.ConditionalSelect(Vector256.GreaterThan(first, last), first, last);
        var vertex = middle - (tilt * tilt / (bend * 4f));
        var isInside = Vector256.LessThan(Vector256.Abs(tilt), bend * -2f);
        return Vector256.ConditionalSelect(isInside, vertex, ends);
    }

    /// <summary>The greater of two; a NaN in the second is passed over.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<float> Greater(Vector256<float> best, Vector256<float> other) =>
        Vector256.ConditionalSelect(Vector256.GreaterThan(other, best), other, best);

    /// <summary>The angle [rad] of a tangent: reduced twice, then the series to the ninth power; errs by less than 2e-7.</summary>
    public static Vector256<float> Angle(Vector256<float> tangent)
    {
        var one = Vector256<float>.One;
        var size = Vector256.Abs(tangent);
        var isSteep = Vector256.GreaterThan(size, one);
        var x = Vector256.ConditionalSelect(isSteep, one / size, size);
        // atan x = atan c + atan((x − c)/(1 + c x)), with c = tan 30°.
        const float C = 0.57735027f;
        var isUpper = Vector256.GreaterThan(x, Vector256.Create(0.26794919f));
        var y = Vector256.ConditionalSelect(isUpper, (x - Vector256.Create(C)) / (one + (x * C)), x);
        var sq = y * y;
        var series = y * (one - (sq * (Vector256.Create(1 / 3f) - (sq * (Vector256.Create(1 / 5f) - (sq * (Vector256.Create(1 / 7f) - (sq * (1 / 9f)))))))));
        var angle = Vector256.ConditionalSelect(isUpper, series + Vector256.Create((float)(Math.PI / 6)), series);
        angle = Vector256.ConditionalSelect(isSteep, Vector256.Create((float)(Math.PI / 2)) - angle, angle);
        return Vector256.ConditionalSelect(Vector256.LessThan(tangent, Vector256<float>.Zero), -angle, angle);
    }
}
