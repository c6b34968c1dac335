using Glowcast.Engine.Light;
using NodaTime;

namespace Glowcast.Cli.Showing;

/// <summary>Direct light on one point: when it comes and goes, for any of the disc, its centre and all of it.</summary>
internal static class TargetLightTable
{
    public static void Write(Page page, DirectLight light, Clock clock)
    {
        var rows = Rows("any of the disc", light.AnyLimb, clock)
            .Concat(Rows("its centre", light.Centre, clock))
            .Concat(Rows("all of it", light.WholeDisc, clock)).ToList();
        if (rows.Count == 0)
        {
            page.Paragraph("No direct light on this date: the sun never stands above the ground around this point.");
            return;
        }
        page.Table(["sun", "", .. clock.Headings, ">± s", ">bearing", ">horizon at"], rows);
        if (light.AnyLimb.Concat(light.Centre).Concat(light.WholeDisc).Any(interval => interval.Start is { IsBeyondGrid: true } || interval.End is { IsBeyondGrid: true }))
            page.Paragraph("* The earth assumed past the grid's edge. Ground out there could cast its shade here; add the next grid to be sure.");
        if (light.WholeDisc.Count == 0) page.Paragraph("The whole disc never clears the ground around this point on this date.");
    }

    private static IEnumerable<IReadOnlyList<string>> Rows(string what, IReadOnlyList<LitInterval> intervals, Clock clock) => intervals.SelectMany(
        (interval, i) => (IReadOnlyList<string>[])
        [
            Row(i == 0 ? what : "", "comes", interval.Time.Start, interval.Start, "lit as the day begins", clock),
            Row("", "goes", interval.Time.End, interval.End, "lit as the day ends", clock),
        ]);

    private static IReadOnlyList<string> Row(string what, string does, Instant at, LightEdge? edge, string otherwise, Clock clock) =>
    [
        what, does, .. clock.Cells(at),
        .. edge is null
            ? (string[])["", otherwise, ""]
            : [$"{edge.Uncertainty.CombinedS:0}", $"{edge.SunAzimuth.Degrees:0.0}°", edge.HorizonDistance is { } distance ? $"{Say.Distance(distance.Metres)}{(edge.IsBeyondGrid ? " *" : "")}" : "nothing"],
    ];
}
