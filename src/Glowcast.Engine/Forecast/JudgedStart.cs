using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>What comes of beginning at some moment.</summary>
/// <param name="Start">Of the marker frame of the first set; a whole second.</param>
/// <param name="InLight">How many exposures of all sets have their light, by the best estimate.</param>
/// <param name="Chance">That all of them have it.</param>
/// <param name="FirstProblem">Null where all have it, by the best estimate.</param>
public sealed record JudgedStart(Instant Start, int InLight, double Chance, FailingFrame? FirstProblem)
{
    private const int MostRows = 121;

    internal static JudgedStart Of(SetJudge judge, SetSequence sets, JudgedDay day, Instant start)
    {
        var startS = day.SecondsAt(start);
        var missed = judge.MissedFrom(startS).ToList();
        return new JudgedStart(start, sets.Shots.Count - missed.Count, judge.ChanceOf(startS), missed.Count > 0 ? Failing(missed[0]) : null);

        FailingFrame Failing(PlannedShot shot) => new(shot.Exposure, sets.BearingOf(shot), start + Duration.FromSeconds(shot.OpensS), judge.ProblemOf(shot, startS));
    }

    /// <summary>Every start that shares time with the window, in even steps of whole seconds, and the starts named.</summary>
    internal static IReadOnlyList<JudgedStart> Table(SetJudge judge, SetSequence sets, JudgedDay day, IEnumerable<Instant> named)
    {
        var window = judge.Window.Stretch;
        var first = Rounded.ToSeconds(day.At(Math.Max(0, window.StartS - sets.TotalS)));
        var lengthS = (day.At(window.EndS) - first).TotalSeconds;
        var stepS = Math.Max(1, Math.Ceiling(lengthS / (MostRows - 1)));
        var even = Enumerable.Range(0, (int)(lengthS / stepS) + 1).Select(row => first + Duration.FromSeconds(row * stepS));
        return [.. even.Concat(named).Distinct().Order().Select(start => Of(judge, sets, day, start))];
    }
}
