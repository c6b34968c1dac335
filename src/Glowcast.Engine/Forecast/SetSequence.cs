using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>Sets shot one after another: usually one with its repeats; two where the span is split.</summary>
internal sealed class SetSequence
{
    /// <exception cref="ArgumentException">There is no set.</exception>
    public SetSequence(params IReadOnlyList<PlannedSet> parts)
    {
        if (parts.Count == 0) throw new ArgumentException("There is no set to shoot.", nameof(parts));
        Parts = parts;
        var startsS = new double[parts.Count];
        for (var part = 1; part < parts.Count; part++) startsS[part] = startsS[part - 1] + LengthS(parts[part - 1]) + ChangeS(parts[part]);
        TotalS = startsS[^1] + LengthS(parts[^1]);
        Shots = [.. parts.Index().SelectMany(part => part.Item.Clock.Exposures.Select(exposure => new PlannedShot(part.Index, exposure, startsS[part.Index])))];
        Sets = [.. Shots.GroupBy(shot => (shot.Part, shot.Exposure.Set)).Select(set => set.ToList())];
    }

    public IReadOnlyList<PlannedSet> Parts { get; }

    /// <summary>From the first marker frame to the end of the last set.</summary>
    public double TotalS { get; }

    /// <summary>Every exposure, in the order they are made.</summary>
    public IReadOnlyList<PlannedShot> Shots { get; }

    /// <summary>The same, each set and each repeat by itself.</summary>
    public IReadOnlyList<IReadOnlyList<PlannedShot>> Sets { get; }

    /// <summary>The same, every frame exposed for so long.</summary>
    /// <param name="exposure">Null for the sets' own.</param>
    public SetSequence Exposed(Duration? exposure) =>
        exposure is { } time && Parts.Any(part => part.Layout.Settings.Times.Exposure != time) ? new SetSequence([.. Parts.Select(part => part.Exposed(time))]) : this;

    public Azimuth BearingOf(PlannedShot shot) => Parts[shot.Part].Layout.FrameAt(shot.Exposure.Row, shot.Exposure.Column).Bearing;

    private static double LengthS(PlannedSet set) => set.Clock.Total.TotalSeconds;

    // To the other half the camera is turned back, and the next set begins as any repeat does.
    private static double ChangeS(PlannedSet next) => (next.Layout.Settings.Times.RepeatGap + next.Layout.Settings.Times.Return).TotalSeconds;
}

/// <summary>One exposure of a sequence.</summary>
/// <param name="Part">Which of its parts; 0 is the first.</param>
internal readonly record struct PlannedShot(int Part, Exposure Exposure, double PartStartS)
{
    /// <summary>When the shutter opens, after the start of the sequence.</summary>
    public double OpensS => PartStartS + Exposure.Start.TotalSeconds;

    public double ClosesS => PartStartS + Exposure.End.TotalSeconds;

    /// <summary>With its shutter open, when the sequence is begun at a moment.</summary>
    public Light.Stretch From(double startS) => new(startS + OpensS, startS + ClosesS);
}
