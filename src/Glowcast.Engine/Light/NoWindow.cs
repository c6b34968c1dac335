using System.Globalization;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>What keeps a day from having a window.</summary>
public enum NoWindowReason
{
    /// <summary>No column of ridge is ever lit.</summary>
    RidgeNeverLit,

    /// <summary>Some of the ridge is, but never enough at once.</summary>
    RidgeNeverLitEnough,

    /// <summary>Enough of the ridge is lit, but only while too much of the valley is.</summary>
    ValleyLit,

    /// <summary>There is light, but for less time than its ends are known to.</summary>
    TooUnsure,

    /// <summary>The day has no picture of the kind wanted.</summary>
    NoSuchPicture,
}

/// <summary>Why a day has no window, and how near it came to one.</summary>
/// <param name="Sentence">The same in words.</param>
/// <param name="Nearest">Null where no ridge is ever lit.</param>
public sealed record NoWindow(NoWindowReason Reason, string Sentence, NearestMiss? Nearest)
{
    /// <summary>Of a chart that has no window.</summary>
    /// <param name="kind">Of picture that is wanted.</param>
    public static NoWindow Of(LightChart chart, PictureKind kind = PictureKind.LitRidgeOverDarkGround)
    {
        ArgumentNullException.ThrowIfNull(chart);
        var valley = kind == PictureKind.LitRidgeOverDarkGround ? chart.Valley : null;
        return WhyNot(chart, kind) is { } why
            ? new NoWindow(NoWindowReason.NoSuchPicture, why, null)
            : Of(chart.Ridge, valley, chart.Scene.Thresholds, chart.Scene.ValleyPart, chart.Track.At(0));
    }

    // Null where it is the ridge that is not lit enough.
    private static string? WhyNot(LightChart chart, PictureKind kind) => kind switch
    {
        PictureKind.OverShadedDeck or PictureKind.OverLitDeck when chart.Deck is null => "No sea of cloud is given, or it takes up too little of the picture.",
        PictureKind.OverShadedDeck when chart.RidgeLit.Count > 0 => "Whenever enough of the ridge is lit, so is too much of the sea of cloud.",
        PictureKind.OverLitDeck when chart.RidgeLit.Count > 0 => "Whenever enough of the ridge is lit, too much of the sea of cloud lies in shade.",
        PictureKind.LitTips when chart.RidgeLit.Count > 0 => "The ridge comes into the light and leaves it all at once, or not within the day.",
        PictureKind.Twilight => "The sun does not go below the ridge's level horizon that day.",
        PictureKind.MoonlitRidge => "The moon is too thin, or not up in a dark sky, or does not light enough of the ridge.",
        _ => null,
    };

    /// <param name="valleyPart">Of all ground in the picture.</param>
    /// <param name="start">The moment from which the shares are counted.</param>
    internal static NoWindow Of(RidgeOfDay ofDay, ShareOverTime? valley, LightThresholds thresholds, double valleyPart, Instant start)
    {
        var (ridge, mostValley) = (ofDay.Share, thresholds.MostValley(valleyPart));
        var enough = Percent(thresholds.ColumnsLit);
        if (ridge.Greatest <= 0) return new NoWindow(NoWindowReason.RidgeNeverLit, $"Direct sun never reaches {enough} of the ridge at once; none of it is lit all day.", null);
        var nearest = NearestMiss.Of(ridge, valley, thresholds.ColumnsLit, mostValley, start);
        var inWords = nearest.InWords(thresholds.ColumnsLit, mostValley);
        if (ridge.AtLeast(thresholds.ColumnsLit).Count == 0)
        {
            return new NoWindow(
                NoWindowReason.RidgeNeverLitEnough,
                $"Direct sun never reaches {enough} of the ridge at once; at most {Percent(ridge.Greatest, thresholds.ColumnsLit)} of it is lit. {inWords}", nearest);
        }
        var litEnough = ofDay.LitEnough(thresholds);
        if (litEnough.Count == 0)
        {
            return new NoWindow(
                NoWindowReason.RidgeNeverLitEnough,
                $"In no half of the day does direct sun light {Percent(thresholds.LeastPicture)} of the ridge in the picture; at most {Percent(ofDay.Halves.Max(ofDay.PartOf), thresholds.LeastPicture)}.", nearest);
        }
        if (valley is null || Stretch.Common(litEnough, valley.AtMost(mostValley)).Count > 0)
            return new NoWindow(NoWindowReason.TooUnsure, "There is light for a moment only, shorter than its ends are known to.", nearest);
        return new NoWindow(
            NoWindowReason.ValleyLit,
            $"Whenever {enough} of the ridge is lit, more than {Percent(mostValley)} of the valley is lit too. {inWords}", nearest);
    }

    internal static string Percent(double share) => share.ToString("0 %", CultureInfo.InvariantCulture);

    /// <summary>With as many decimals as it takes to tell it from a bound that it misses.</summary>
    internal static string Percent(double share, double bound)
    {
        string[] formats = ["0 %", "0.0 %", "0.00 %"];
        var format = share == bound ? formats[0] : formats.FirstOrDefault(format => In(share, format) != In(bound, format), formats[^1]);
        return In(share, format);

        static string In(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
    }
}

/// <summary>The moment that came nearest to being a window: where the larger of its two shortfalls is least, in the middle of
/// the longest such stretch.</summary>
/// <param name="RidgeShare">Share of the ridge's columns lit then.</param>
/// <param name="ValleyShare">Share of the valley lit then; null where none is visible.</param>
/// <param name="RidgeMissing">What it lacks of the share of columns asked for; 0 where enough are lit.</param>
/// <param name="ValleyTooMuch">By what the valley's share is over the one allowed; 0 where it is not.</param>
/// <param name="BestRidgeInShade">The greatest share of the ridge lit while the valley is shaded enough; null where it never is.</param>
public sealed record NearestMiss(
    Instant At, double RidgeShare, double? ValleyShare, double RidgeMissing, double ValleyTooMuch, double? BestRidgeInShade)
{
    internal string InWords(double columnsLit, double mostValley) => ValleyShare is { } valley
        ? $"At the nearest, {NoWindow.Percent(RidgeShare, columnsLit)} of the ridge is lit and {NoWindow.Percent(valley, mostValley)} of the valley."
        : $"At the nearest, {NoWindow.Percent(RidgeShare, columnsLit)} of the ridge is lit.";

    internal static NearestMiss Of(ShareOverTime ridge, ShareOverTime? valley, double columnsLit, double mostValley, Instant start)
    {
        var moments = Steps(ridge, valley).Select(step =>
        {
            var middleS = (step.StartS + step.EndS) / 2;
            var (lit, valleyLit) = (ridge.At(middleS), valley?.At(middleS));
            return (Step: step, Ridge: lit, Valley: valleyLit, Missing: Math.Max(0, columnsLit - lit), TooMuch: Math.Max(0, (valleyLit ?? 0) - mostValley));
        }).ToList();
        var nearest = moments.OrderBy(moment => Math.Max(moment.Missing, moment.TooMuch)).ThenByDescending(moment => moment.Step.LengthS).First();
        var shaded = moments.FindAll(moment => moment.TooMuch == 0);
        return new NearestMiss(
            start + Duration.FromSeconds((nearest.Step.StartS + nearest.Step.EndS) / 2), nearest.Ridge, nearest.Valley, nearest.Missing, nearest.TooMuch,
            shaded.Count > 0 ? shaded.Max(moment => moment.Ridge) : null);
    }

    /// <summary>The stretches between which neither share changes.</summary>
    private static List<Stretch> Steps(ShareOverTime ridge, ShareOverTime? valley)
    {
        var length = ridge.LengthS;
        List<double> times = [.. ridge.Steps.Concat(valley?.Steps ?? []).Where(step => step < length).Distinct().Order(), length];
        return [.. times.Zip(times.Skip(1), (start, end) => new Stretch(start, end))];
    }
}
