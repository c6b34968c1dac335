using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>Finds why a set fits no better than it does: which bearings hold it up, and what stands before their sun (docs/model.md, F17).</summary>
internal sealed class FitReasons
{
    // Less is no reason: the frames at the ends of a sweep differ by as much.
    private const double NoticeableS = 60;

    // A strip that is half of the picture is no strip.
    private const double WidestShare = 0.5;

    private const int Looks = 6;

    private readonly JudgedSets judged;
    private readonly SetFit fit;
    private readonly Stretch window;
    private readonly SpanLight span;

    private FitReasons(SetFit fit, JudgedSets judged) =>
        (this.fit, this.judged, window, span) = (fit, judged, judged.Judge.Window.Stretch, judged.Judge.Window.Span);

    /// <summary>In order of weight; none where a set fits in all of its window.</summary>
    public static IReadOnlyList<FitReason> Of(SetFit fit) => fit.Judged is { } judged ? [.. new FitReasons(fit, judged).Found()] : [];

    private IEnumerable<FitReason> Found()
    {
        if (!judged.Judge.Window.IsRidgeSeen) yield return new FitReason(FitReasonCode.RidgeNotSeen, null);
        if (fit.Room is { } room && judged.Judge.IsPossible)
        {
            if (room.Before < Duration.Zero) yield return new FitReason(FitReasonCode.TooEarly, null) { By = -room.Before };
            if (room.After <= Duration.Zero) yield return new FitReason(FitReasonCode.TooLate, null) { By = -room.After };
        }
        foreach (var strip in Strips()) yield return strip;
        if (judged.Judge.Best is not { } range) yield break;
        if (!range.IsPossible)
            yield return new FitReason(FitReasonCode.SetTooLong, null) { By = Duration.FromSeconds(-range.LengthS), At = judged.Day.At(range.Last.LightS), Horizon = range.LastDoubt.Horizon };
        else if (fit.Verdict != Verdict.Fits && fit.FirstProblem is null && !fit.IsCapped)
            yield return new FitReason(FitReasonCode.Unsure, null) { By = Duration.FromSeconds(range.LengthS) };
        if (range.IsUnknownBeyond)
        {
            var edges = new[] { range.FirstDoubt, range.LastDoubt };
            yield return new FitReason(FitReasonCode.UnknownBeyond, null)
            {
                GridEdge = edges.Min(edge => edge.UnknownBeyond?.Distance),
                By = Duration.FromSeconds(edges.Max(edge => edge.UnknownMoveS)),
            };
        }
    }

    /// <summary>Bearings that hold the starts up, at either end.</summary>
    private IEnumerable<FitReason> Strips()
    {
        if (judged.Judge.Best is not { } range)
        {
            if (StripOf(column => LightOf(column) is null, NeverLitColumns()) is { } dark) yield return Reason(FitReasonCode.DarkStrip, dark, null, null);
            yield break;
        }
        if (range.First.IsRidge && range.First.LightS > window.StartS + NoticeableS
            && Best(range.First, Between(range.First.LightS, window.StartS), (light, at) => light.StartS >= at) is { } late)
            yield return Reason(FitReasonCode.LateStrip, late, range.First.LightS, range.FirstDoubt.Horizon);
        if (range.Last.IsRidge && range.Last.LightS < window.EndS - NoticeableS
            && Best(range.Last, Between(range.Last.LightS, window.EndS), (light, at) => light.EndS <= at) is { } early)
            yield return Reason(FitReasonCode.EarlyStrip, early, range.Last.LightS, range.LastDoubt.Horizon);
    }

    private FitReason Reason(FitReasonCode code, BearingSpan strip, double? lightS, EdgeHorizon? horizon)
    {
        var without = Without(strip).Best is { IsPossible: true } range ? range : null;
        return new FitReason(code, strip)
        {
            At = lightS is { } at ? judged.Day.At(at) : null,
            Horizon = horizon,
            EarliestWithout = without is null ? null : judged.Day.At(without.First.StartS),
            LatestWithout = without is null ? null : judged.Day.At(without.Last.StartS),
        };
    }

    /// <summary>The narrowest strip without which the set is possible, or else the one without which most is gained; null where nothing is.</summary>
    private BearingSpan? Best(StartEdge edge, IEnumerable<double> moments, Func<Stretch, double, bool> isHeldUp)
    {
        var before = judged.Judge.Best!;
        var strips = moments.Select(at => StripOf(column => LightOf(column) is not { } light || isHeldUp(light, at), judged.Judge.ColumnsOf(edge.Shot)))
            .OfType<BearingSpan>().Distinct().OrderBy(strip => strip.Width.Degrees)
            .Select(strip => (Strip: strip, GainS: (Without(strip).Best?.LengthS ?? double.NegativeInfinity) - before.LengthS)).Where(tried => tried.GainS > NoticeableS / 2).ToList();
        if (strips.Count == 0) return null;
        var enough = strips.FindIndex(tried => before.LengthS + tried.GainS > 2 * NoticeableS);
        return (enough >= 0 && !before.IsPossible ? strips[enough] : strips.MaxBy(tried => tried.GainS / tried.Strip.Width.Degrees)).Strip;
    }

    private static IEnumerable<double> Between(double fromS, double toS) => Enumerable.Range(0, Looks).Select(look => fromS + ((toS - fromS) * look / Looks));

    /// <summary>The run of such columns through a frame, without a gap; null where there is none, and where it is too wide to be one.</summary>
    private BearingSpan? StripOf(Func<int, bool> isIn, IReadOnlyList<int> frame)
    {
        var seeds = frame.Where(column => span.Lit[column] is not null && isIn(column)).ToList();
        if (seeds.Count == 0) return null;
        var (first, last) = (seeds[0], seeds[^1]);
        while (first > 0 && span.Lit[first - 1] is not null && isIn(first - 1)) first--;
        while (last < span.Bearings.Count - 1 && span.Lit[last + 1] is not null && isIn(last + 1)) last++;
        if (last - first + 1 > WidestShare * span.Bearings.Count) return null;
        var half = span.Bearings.Count > 1 ? span.Bearings[0].ClockwiseTo(span.Bearings[1]) / 2 : Angle.FromDegrees(0.1);
        return new BearingSpan(span.Bearings[first] - half, span.Bearings[last] + half);
    }

    /// <summary>The columns of the first frame that has no light in the window at all.</summary>
    private IReadOnlyList<int> NeverLitColumns()
    {
        var startS = judged.Day.SecondsAt(fit.ChosenStart!.Value);
        return judged.Judge.MissedFrom(startS).Where(shot => judged.Judge.ProblemOf(shot, startS) == FrameProblem.RidgeNeverLit).Select(judged.Judge.ColumnsOf).FirstOrDefault() ?? [];
    }

    /// <summary>The light of a column that shares most time with the window; null where none does.</summary>
    private Stretch? LightOf(int column)
    {
        var shared = span.Lit[column]?.Where(lit => lit.StartS < window.EndS && lit.EndS > window.StartS).ToList() ?? [];
        return shared.Count > 0 ? shared.MaxBy(lit => Math.Min(lit.EndS, window.EndS) - Math.Max(lit.StartS, window.StartS)) : null;
    }

    private SetJudge Without(BearingSpan strip) => new(judged.Day, judged.Judge.Window with { Span = span.Without([strip]) }, judged.Sets);
}
