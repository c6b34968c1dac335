using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>Sets in the window that they were laid into, for whoever asks of other starts.</summary>
internal sealed record JudgedSets(JudgedDay Day, SetJudge Judge, SetSequence Sets)
{
    public JudgedStart At(Instant start) => JudgedStart.Of(Judge, Sets, Day, start);

    public IReadOnlyList<JudgedStart> Table(IEnumerable<Instant> named) => JudgedStart.Table(Judge, Sets, Day, named);

    /// <summary>Whether the verdict would be another, were every moment of light as much earlier or later as it may be.</summary>
    /// <param name="error">The least; where a moment is less sure, as much as that.</param>
    /// <remarks>The first possible start and the last are moved apart and together; a start that the plan gives stays where it is.</remarks>
    public bool CouldBeAnother(SetFit fit, Duration error)
    {
        var (errorS, startS) = (error.TotalSeconds, Day.SecondsAt(fit.ChosenStart!.Value));
        if (Judge.RangeAt(startS) is not { } range) return false;
        if (range.IsUnknownClose && fit.Verdict is Verdict.Fits or Verdict.Tight) return true;
        return new[] { -1, 1 }.Select(way => range.Widened(errorS, way)).Any(other => VerdictOn(other, Day.GivenStartS ?? other.SafestS) != fit.Verdict);
    }

    private Verdict VerdictOn(StartRange range, double startS) =>
        range.First.StartS <= startS && startS < range.Last.StartS ? Day.Wishes.Bounds.Of(Judge.Held(range, startS)) : Verdict.TooLong;
}
