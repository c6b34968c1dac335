using NodaTime;

namespace Glowcast.Engine.Take;

/// <summary>The order in which the frames of one camera were shot: by time, or by the numbers in their names where the clock
/// was set back during the take.</summary>
internal static class ShotOrder
{
    private const int NumbersRunOver = 5000;
    private const double AfterClockChangeS = 3600;

    // Names in whose order the time jumps to and fro say nothing of the order.
    private const int MostClockChanges = 3;

    /// <param name="frames">All with a time.</param>
    /// <returns>The frames, when each was shot after the first, and what the user should know of it.</returns>
    public static (IReadOnlyList<ShotFrame> Frames, IReadOnlyList<double> Seconds, string? Caution) Of(IEnumerable<ShotFrame> frames)
    {
        var named = frames.Select(frame => (Frame: frame, Number: FrameNames.NumberOf(frame.Name))).ToList();
        var useOffsets = named.TrueForAll(entry => entry.Frame.Offset is not null);
        var byTime = named.OrderBy(Time).ThenBy(entry => entry.Number).ThenBy(entry => entry.Frame.Name, StringComparer.Ordinal).ToList();
        var byName = named.OrderBy(entry => entry.Number).ThenBy(Time).ToList();
        var backwards = Enumerable.Range(1, Math.Max(0, byName.Count - 1)).Where(i => Time(byName[i]) < Time(byName[i - 1])).ToList();
        var isMixedByTime = byTime.Zip(byTime.Skip(1)).Any(pair => pair.First.Number - pair.Second.Number is > 0 and < NumbersRunOver);
        if (!isMixedByTime || backwards.Count > MostClockChanges) return (Frames(byTime), Seconds(byTime), null);
        return (Frames(byName), Seconds(byName), $"The clock goes backwards at {byName[backwards[0]].Frame.Name}: the frames are taken in the order of their names.");

        Duration Time((ShotFrame Frame, long Number) entry) =>
            entry.Frame.Taken!.Value.WithOffset(useOffsets ? entry.Frame.Offset!.Value : Offset.Zero).ToInstant() - NodaConstants.UnixEpoch;

        double[] Seconds(List<(ShotFrame Frame, long Number)> ordered)
        {
            var seconds = new double[ordered.Count];
            for (var i = 1; i < ordered.Count; i++)
            {
                var gap = Time(ordered[i]) - Time(ordered[i - 1]);
                // What passed while the clock was set is not known; nobody does it in the middle of a set.
                seconds[i] = seconds[i - 1] + (gap >= Duration.Zero ? gap.TotalSeconds : AfterClockChangeS);
            }
            return seconds;
        }
    }

    private static List<ShotFrame> Frames(IEnumerable<(ShotFrame Frame, long Number)> entries) => [.. entries.Select(entry => entry.Frame)];
}
