namespace Glowcast.Server.Tests.Store;

/// <summary>Damages files as bad disks and bad memory do.</summary>
internal static class Damage
{
    private const int PageBytes = 4096;

    /// <summary>Writes noise over a stretch in the middle of pages of a database; the first one, which says what it is, is left.</summary>
    public static void Pages(string path, Random random, int pages)
    {
        var bytes = File.ReadAllBytes(path);
        for (var i = 0; i < pages; i++)
        {
            var page = 1 + random.Next((bytes.Length / PageBytes) - 1);
            random.NextBytes(bytes.AsSpan(page * PageBytes, random.Next(8, PageBytes)));
        }
        File.WriteAllBytes(path, bytes);
    }

    /// <summary>Flips some bits anywhere.</summary>
    public static void Bits(string path, Random random, int count)
    {
        var bytes = File.ReadAllBytes(path);
        for (var i = 0; i < count; i++) bytes[random.Next(bytes.Length)] ^= (byte)(1 << random.Next(8));
        File.WriteAllBytes(path, bytes);
    }
}
