using System.Runtime.InteropServices;
using Glowcast.Engine.Light;

namespace Glowcast.Server.Answers;

/// <summary>The patches of visible ground as flat arrays in base64, little-endian.</summary>
/// <param name="Column">Of the light chart; unsigned, 16 bits.</param>
/// <param name="Role">0 crest, 1 ridge, 2 valley; 8 bits.</param>
/// <param name="BottomDeg">Apparent altitude of the lower edge; single precision, as all that follow.</param>
/// <param name="LitCount">How many starts and ends of direct light belong to each patch; 8 bits.</param>
/// <param name="LitMin">Those starts and ends in turn, patch after patch, in minutes after the chart's start.</param>
public sealed record PatchesAnswer(byte[] Column, byte[] Role, byte[] BottomDeg, byte[] TopDeg, byte[] LitCount, byte[] LitMin)
{
    private const int MostCounted = 254;

    public static PatchesAnswer Of(Scene scene, LightChart? chart)
    {
        ArgumentNullException.ThrowIfNull(scene);
        var patches = scene.Patches;
        var lit = Enumerable.Range(0, patches.Count).Select(i => chart is null
            ? [] : chart.LitStretches(i).SelectMany(stretch => (double[])[stretch.StartS / 60, stretch.EndS / 60]).Take(MostCounted).ToList()).ToList();
        return new PatchesAnswer(
            BytesOf(patches.Select(patch => (ushort)patch.Column)), [.. patches.Select(patch => (byte)patch.Role)],
            BytesOf(patches.Select(patch => (float)patch.Bottom.Degrees)), BytesOf(patches.Select(patch => (float)patch.Top.Degrees)),
            [.. lit.Select(ends => (byte)ends.Count)], BytesOf(lit.SelectMany(ends => ends.Select(minute => (float)minute))));
    }

    private static byte[] BytesOf<T>(IEnumerable<T> values) where T : unmanaged => MemoryMarshal.AsBytes<T>(values.ToArray()).ToArray();
}
