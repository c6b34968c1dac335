using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace Glowcast.Engine.Terrain;

/// <summary>Heights by their places in an array, eight at once; with the processor's own instruction where it has one.</summary>
internal static unsafe class EightHeights
{
    /// <param name="heights">Held in place by the caller.</param>
    /// <param name="index">Every one inside the array.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<float> At(float* heights, Vector256<int> index) => Avx2.IsSupported
        ? Avx2.GatherVector256(heights, index, sizeof(float))
        : Vector256.Create(
            heights[index[0]], heights[index[1]], heights[index[2]], heights[index[3]], heights[index[4]], heights[index[5]], heights[index[6]], heights[index[7]]);
}
