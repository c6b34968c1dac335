using System.Globalization;
using System.Text.RegularExpressions;
using NodaTime;

namespace Glowcast.Engine.Take;

/// <summary>The order in which the frames of one camera were shot: by time, or by the numbers in their names where the clock
/// was set back during the take.</summary>
internal static partial class ShotOrder
{
    private const int NumbersRunOver = 5000;
    private const double NamesHaveNoOrder = 0.3;
    private const double AfterClockChangeS = 3600;

    /// <param name="frames">All with a time.</param>
    /// <returns>The frames, when each was shot after the first, and what the user should know of it.</returns>
    public static (IReadOnlyList<ShotFrame> Frames, IReadOnlyList<double> Seconds, string? Caution) Of(IEnumerable<ShotFrame> frames)
    {
        var named = frames.Select(frame => (Frame: frame, Number: NumberOf(frame.Name))).ToList();
        var useOffsets = named.TrueForAll(entry => entry.Frame.Offset is not null);
        var byTime = named.OrderBy(entry => Seconds(entry.Frame)).ThenBy(entry => entry.Number).ThenBy(entry => entry.Frame.Name, StringComparer.Ordinal).ToList();
        var backwards = byTime.Zip(byTime.Skip(1)).Count(pair => pair.First.Number - pair.Second.Number is > 0 and < NumbersRunOver);
        if (backwards == 0 || backwards > NamesHaveNoOrder * byTime.Count) return (Frames(byTime), [.. byTime.Select(entry => Seconds(entry.Frame) - Seconds(byTime[0].Frame))], null);

        var byName = named.OrderBy(entry => entry.Number).ThenBy(entry => Seconds(entry.Frame)).ToList();
        var seconds = new double[byName.Count];
        for (var i = 1; i < byName.Count; i++)
        {
            var gapS = Seconds(byName[i].Frame) - Seconds(byName[i - 1].Frame);
            // What passed while the clock was set is not known; nobody does it in the middle of a set.
            seconds[i] = seconds[i - 1] + (gapS >= 0 ? gapS : AfterClockChangeS);
        }
        var at = Enumerable.Range(1, byName.Count - 1).First(i => Seconds(byName[i].Frame) < Seconds(byName[i - 1].Frame));
        return (Frames(byName), seconds, $"The clock goes backwards at {byName[at].Frame.Name}: the frames are taken in the order of their names.");

        double Seconds(ShotFrame frame) =>
            (frame.Taken!.Value.WithOffset(useOffsets ? frame.Offset!.Value : Offset.Zero).ToInstant() - NodaConstants.UnixEpoch).TotalSeconds;
    }

    private static List<ShotFrame> Frames(IEnumerable<(ShotFrame Frame, long Number)> entries) => [.. entries.Select(entry => entry.Frame)];

    private static long NumberOf(string name) => LastNumber().Match(Path.GetFileNameWithoutExtension(name)) is { Success: true } match
        ? long.Parse(match.Groups[1].Value, CultureInfo.InvariantCulture)
        : 0;

    // The last number of the name; only its last nine digits, so that no date or checksum runs over.
    [GeneratedRegex(@"(\d{1,9})\D*$", RegexOptions.CultureInvariant)]
    private static partial Regex LastNumber();
}
