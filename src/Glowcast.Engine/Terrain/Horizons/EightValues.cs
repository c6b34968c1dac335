using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace Glowcast.Engine.Terrain;

/// <summary>Values by their places in an array, eight at once; with the processor's own instruction where it has one.</summary>
internal static unsafe class EightValues
{
    /// <param name="values">Held in place by the caller.</param>
    /// <param name="index">Every one inside the array.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<float> At(float* values, Vector256<int> index) => Avx2.IsSupported
        ? Avx2.GatherVector256(values, index, sizeof(float))
        : Vector256.Create(
            values[index[0]], values[index[1]], values[index[2]], values[index[3]], values[index[4]], values[index[5]], values[index[6]], values[index[7]]);
}
