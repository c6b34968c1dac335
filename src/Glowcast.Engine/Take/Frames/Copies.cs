namespace Glowcast.Engine.Take;

/// <summary>Files that are copies of others: named as such, and shot at the same moment with the same settings.</summary>
internal static class Copies
{
    /// <returns>Each copy, and what it is a copy of.</returns>
    public static IReadOnlyDictionary<string, string> In(IReadOnlyList<ShotFrame> frames)
    {
        var copies = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var same in frames.Where(frame => frame.Taken is not null).GroupBy(frame => (frame.Camera, frame.Taken, frame.Settings, Stem: FrameNames.WithoutCopyMark(frame.Name))))
        {
            if (same.Count() < 2) continue;
            var original = same.OrderBy(frame => FrameNames.IsMarkedCopy(frame.Name)).ThenBy(frame => frame.Name.Length).ThenBy(frame => frame.Name, StringComparer.Ordinal).First();
            foreach (var copy in same.Where(frame => frame != original && FrameNames.IsMarkedCopy(frame.Name))) copies[copy.Name] = original.Name;
        }
        return copies;
    }
}
