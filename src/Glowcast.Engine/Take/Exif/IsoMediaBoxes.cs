namespace Glowcast.Engine.Take;

/// <summary>The boxes of which files of the ISO base media format are made (ISO/IEC 14496-12:2022, section 4.2).</summary>
internal static class IsoMediaBoxes
{
    private const int MostBoxes = 256;

    /// <summary>Boxes one after another, as many as there are whole heads of.</summary>
    public static List<Box> In(PictureBytes bytes, long from, long to)
    {
        var boxes = new List<Box>();
        Span<byte> head = stackalloc byte[16];
        for (var at = from; boxes.Count < MostBoxes && at <= to - 8 && bytes.TryRead(at, head[..8]);)
        {
            var (size, inner) = (PictureBytes.WholeOf(head[..4], isLittle: false), at + 8);
            if (size == 0) size = to - at;
            else if (size == 1)
            {
                if (!bytes.TryRead(at, head)) break;
                (size, inner) = (PictureBytes.WholeOf(head[8..], isLittle: false), at + 16);
            }
            if (size < inner - at || size > to - at) break;
            boxes.Add(new Box((uint)PictureBytes.WholeOf(head[4..8], isLittle: false), inner, at + size));
            at += size;
        }
        return boxes;
    }
}

/// <param name="From">Where its content begins.</param>
/// <param name="To">Where it ends.</param>
internal readonly record struct Box(uint Kind, long From, long To)
{
    public bool Is(ReadOnlySpan<byte> kind) => Kind == (uint)PictureBytes.WholeOf(kind, isLittle: false);
}
