namespace Glowcast.Engine.Take;

/// <summary>Whether a frame looks like a marker frame: all dark, or a hand close before the lens, which is evener than the
/// pictures around it and of another brightness.</summary>
/// <remarks>docs/model.md, Take eq. 2.</remarks>
internal static class MarkerLikeness
{
    private const double DarkBelowStops = 4;
    private const double EvenShare = 0.45;
    private const double BlankShare = 0.3;
    private const double OtherBrightnessStops = 1;
    private const double AlikeStops = 0.7;
    private const double BlownOutStops = -0.5; // the longest of a bracket, not a hand in its own shade

    private const double HalfDarkStops = 3;
    private const double HalfDarkShare = 0.25;
    private const double OtherShare = 0.2;

    /// <summary>For a frame that is dark in part and joins to neither neighbour.</summary>
    public const double HalfDark = 4;

    private const double Dark = 7;
    private const double Hand = 4;
    private const double Doubtful = -1;
    private const double Picture = -7;
    private const double Unknown = -0.7;

    /// <summary>For each frame, the logarithm of how much likelier it is to be a marker than a picture, by its looks.</summary>
    public static double[] Of(IReadOnlyList<ShotFrame> frames)
    {
        var glances = frames.Select(frame => frame.Glance).ToList();
        var usualStops = SessionFacts.Median(glances.OfType<Glance>().Select(glance => glance.MeanStops));
        var usualContrast = SessionFacts.Median(glances.OfType<Glance>().Select(glance => glance.ContrastStops));
        return [.. glances.Select((glance, i) => glance is null ? Unknown : OddsOf(i, glance))];

        double OddsOf(int i, Glance glance)
        {
            if (glance.MeanStops < usualStops - DarkBelowStops) return HasLike(i, glance) ? Hand : Dark;
            var isEven = glance.ContrastStops < EvenShare * usualContrast;
            if (!isEven) return Picture;
            if (HasLike(i, glance) || glance.MeanStops > BlownOutStops) return Doubtful;
            return Math.Abs(glance.MeanStops - usualStops!.Value) > OtherBrightnessStops || glance.ContrastStops < BlankShare * usualContrast ? Hand : Doubtful;
        }

        // A frame of open sky is even and bright too, but so are those beside it in its row.
        bool HasLike(int i, Glance glance) => new[] { i - 1, i + 1 }
            .Where(beside => beside >= 0 && beside < glances.Count)
            .Any(beside => glances[beside] is { } other && other.ContrastStops < EvenShare * usualContrast && Math.Abs(other.MeanStops - glance.MeanStops) < AlikeStops);
    }

    /// <summary>Whether a good part of a frame is as dark as a hand before the lens, and of its neighbours is not.</summary>
    public static bool IsHalfDark(IReadOnlyList<ShotFrame> frames, int frame)
    {
        if (frames[frame].Glance is not { } glance) return false;
        var beside = new[] { frame - 1, frame + 1 }.Where(other => other >= 0 && other < frames.Count).Select(other => frames[other].Glance).OfType<Glance>().ToList();
        if (beside.Count == 0) return false;
        // As dark as nothing in the pictures beside it is, but for a few parts.
        var darkest = beside.Min(other => Quantile(other, 0.1)) - HalfDarkStops / 2;
        var usual = beside.Average(other => other.MeanStops) - HalfDarkStops;
        var limit = Math.Min(darkest, usual);
        var share = glance.ShareBelow(limit);
        return share > HalfDarkShare && beside.TrueForAll(other => other.ShareBelow(limit) < share - OtherShare);
    }

    private static double Quantile(Glance glance, double share) => glance.Sorted[(int)(share * (glance.Sorted.Count - 1))];
}
