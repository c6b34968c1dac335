using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>A change of the set that makes it fit, worked out in full.</summary>
/// <param name="Change">What to do, in a sentence.</param>
/// <param name="PrintCost">What it costs.</param>
/// <param name="Parts">The changed set; two, in the order of shooting, where the span is split.</param>
/// <param name="Fit">The changed set laid over the light.</param>
/// <param name="MarginGained">Over the set as planned.</param>
public sealed record Remedy(string Change, PrintCost PrintCost, IReadOnlyList<PlannedSet> Parts, SetFit Fit, Duration MarginGained)
{
    /// <summary>What it costs, in words.</summary>
    public string Cost => PrintCost.Sentence;

    /// <summary>The changed set, or the first half of it.</summary>
    public PlannedSet Set => Parts[0];

    public int FramesPerSet => Parts.Sum(part => part.Layout.FramesPerSet);

    /// <summary>From the first marker frame to the end of the last set.</summary>
    public Duration Total => Duration.FromSeconds(new SetSequence(Parts).TotalS);

    /// <summary>Of all parts side by side.</summary>
    public Length PrintWidth => Length.FromMetres(Parts.Sum(part => part.Layout.Print.Width.Metres));

    public Length PrintHeight => Set.Layout.Print.Height;
}
