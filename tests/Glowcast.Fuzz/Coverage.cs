using System.Numerics;
using System.Runtime.InteropServices;
using SharpFuzz.Common;

namespace Glowcast.Fuzz;

/// <summary>Which branches of the instrumented code an input took, and how often, in steps of powers of two.</summary>
internal sealed unsafe class Coverage
{
    private const int Size = 1 << 16;

    private readonly byte* map = (byte*)NativeMemory.AlignedAlloc(Size, 64);
    private readonly byte[] seen = new byte[Size];

    public Coverage()
    {
        Clear();
        Trace.SharedMem = map;
    }

    public int Branches { get; private set; }

    public void Clear()
    {
        new Span<byte>(map, Size).Clear();
        Trace.PrevLocation = 0;
    }

    /// <summary>Takes note of what was taken since it was cleared.</summary>
    /// <returns>Whether a branch is new, or was never taken so often.</returns>
    public bool Note()
    {
        var isNew = false;
        for (var i = 0; i < Size; i += Vector<byte>.Count)
        {
            if (Vector.EqualsAll(*(Vector<byte>*)(map + i), Vector<byte>.Zero)) continue;
            for (var at = i; at < i + Vector<byte>.Count; at++)
            {
                if (map[at] == 0) continue;
                var step = (byte)(1 << BitOperations.Log2(map[at]));
                if ((seen[at] & step) != 0) continue;
                if (seen[at] == 0) Branches++;
                seen[at] |= step;
                isNew = true;
            }
        }
        return isNew;
    }
}
