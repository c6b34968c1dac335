using Glowcast.Engine.Capture;
using Glowcast.Engine.Forecast;

namespace Glowcast.Server.Answers;

/// <summary>One thing that can spoil the picture.</summary>
/// <param name="Matters">False where it will not be noticed.</param>
/// <param name="Pixels">How much; null where it is not a matter of pixels.</param>
/// <param name="Metres">The distance it is about; null where there is none.</param>
public sealed record SpoilAnswer(SpoilerKind What, bool Matters, double? Pixels, double? Metres, string Sentence)
{
    public static SpoilAnswer Of(Spoiler spoiler)
    {
        ArgumentNullException.ThrowIfNull(spoiler);
        return new SpoilAnswer(spoiler.What, spoiler.Matters, spoiler.Pixels, spoiler.Metres, spoiler.Sentence);
    }
}

/// <summary>The click stops of the rotator that suit the set. The frames of the answer are laid out for a rotator that turns freely; to
/// shoot with a stop, plan with the overlap it gives.</summary>
/// <param name="Nearest">To the step; null where every stop would leave a gap.</param>
/// <param name="KeepingOverlap">The widest that overlaps at least as much as planned; null where there is none.</param>
public sealed record ClickStopsAnswer(ClickStopAnswer? Nearest, ClickStopAnswer? KeepingOverlap)
{
    public static ClickStopsAnswer? Of(SetLayout layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        var stops = layout.Settings.ClickStops;
        return stops.Count == 0
            ? null
            : new ClickStopsAnswer(ClickStopAnswer.Of(ClickStop.Nearest(stops, layout.Across)), ClickStopAnswer.Of(ClickStop.KeepingOverlap(stops, layout.Across)));
    }
}

/// <param name="Overlap">That turning by it gives, as a share of a frame's width.</param>
public sealed record ClickStopAnswer(double TurnDeg, double Overlap)
{
    public static ClickStopAnswer? Of(ClickStop? stop) => stop is null ? null : new ClickStopAnswer(stop.Turn.Degrees, stop.Overlap);
}
