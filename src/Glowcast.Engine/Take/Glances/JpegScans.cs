namespace Glowcast.Engine.Take;

/// <summary>Counts the scans of a JPEG: a progressive decoder goes over the whole picture in each, however short it is.</summary>
internal static class JpegScans
{
    private const byte EndOfImage = 0xD9;
    private const byte StartOfScan = 0xDA;

    /// <param name="jpeg">From its beginning; what follows its end does not count.</param>
    /// <param name="enough">Where counting stops.</param>
    public static int Count(ReadOnlySpan<byte> jpeg, int enough)
    {
        var scans = 0;
        for (var at = 2; at + 4 <= jpeg.Length && scans < enough;)
        {
            if (jpeg[at] != 0xFF || !IsSegment(jpeg[at + 1]))
            {
                at++;
                continue;
            }
            if (jpeg[at + 1] == EndOfImage) break;
            if (jpeg[at + 1] == StartOfScan) scans++;
            at += 2 + ((jpeg[at + 2] << 8) | jpeg[at + 3]);
        }
        return scans;
    }

    // In compressed data FF is followed by 00 or by the number of a restart (ITU-T T.81, B.1.1.5); such bytes are passed over one by one.
    private static bool IsSegment(byte marker) => marker is not (0x00 or 0x01 or (>= 0xD0 and <= 0xD8) or 0xFF);
}
