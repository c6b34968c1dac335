using Glowcast.Engine.Forecast;

namespace Glowcast.Field.Words;

/// <summary>Whether the set fits into the light, in words.</summary>
internal static class FitWords
{
    public static string Verdict(SetFit fit) => fit.Verdict switch
    {
        Engine.Measures.Verdict.Fits => $"It fits, {Chance(fit)}: {Room(fit)}.",
        Engine.Measures.Verdict.Tight => $"It is tight, {Chance(fit)}: {Room(fit)}.",
        Engine.Measures.Verdict.NoLight => "No light: there is no window on this date.",
        _ => $"It does not fit, {Chance(fit)}: {WhyNot(fit)}.",
    };

    /// <summary>"9 in 10": to the nearest tenth, but never all nor none of them unless it is surer than a hundredth.</summary>
    public static string Chance(double chance) => chance switch
    {
        < 0.01 => "hardly ever whole",
        < 0.05 => "1 in 50",
        < 0.095 => "1 in 20",
        >= 0.985 => "99 in 100",
        >= 0.95 => "19 in 20",
        _ => $"{Math.Round(10 * chance, MidpointRounding.AwayFromZero):0} in 10",
    };

    /// <summary>Before and after the start chosen.</summary>
    public static string Room(SetFit fit) => fit.Room is { } room
        ? $"room before {Signed(room.Before)} ({Say.PlusMinus(room.BeforeUncertainty.TotalSeconds)}), room after {Signed(room.After)} ({Say.PlusMinus(room.AfterUncertainty.TotalSeconds)})"
        : "no room";

    /// <summary>Why that start, in one line; empty where the plan gives it.</summary>
    public static string Because(SetFit fit) => fit.ChosenBecause switch
    {
        StartReason.Safest => "the safest start",
        StartReason.SteadierLight => $"{Place(fit)} of the safe minutes: steadier light",
        StartReason.RedderLight => $"{Place(fit)} of the safe minutes: redder light",
        StartReason.DeeperShade => $"{Place(fit)} of the safe minutes: deeper shade beside the light",
        StartReason.LeastLost => "least is lost from here",
        _ => "as the plan says",
    };

    private static string Chance(SetFit fit) => Chance(fit.Chance) + (fit.IsCapped ? " at the most" : "");

    private static string WhyNot(SetFit fit) => fit switch
    {
        { FirstProblem: null, IsRidgeSeen: false } => "the ridge is not seen",
        { FirstProblem: null } => $"{Room(fit)}, and that is less than luck",
        { EarliestStart: not null } => "begun then, frames miss their light",
        { Room: null } => "some frames never have their light in this window",
        _ => $"the set is too long by {Say.Time(fit.Margin!.Value)}",
    };

    private static string Signed(NodaTime.Duration room) => $"{(room < NodaTime.Duration.Zero ? "−" : "")}{Say.Time(room)}";

    // Of the safe minutes those within 2 % of the best chance: the start lies at one of their ends, or between.
    private static string Place(SetFit fit) => fit.Room is { } room && room.Before < room.After ? "an early one" : "a late one";

    public static string Drift(ExposureDrift drift) =>
        $"{drift.FirstToLastStops:+0.00;-0.00} stops from the first frame to the last, {drift.ToleranceStops:0.00} allowed{(drift.Advice.Count > 0 ? $". {string.Join(" ", drift.Advice)}" : "")}";

    public static string Problem(FailingFrame failing, Clock clock)
    {
        var exposure = failing.Exposure;
        return $"frame {exposure.Frame + 1} of set {exposure.Set + 1} (row {exposure.Row + 1}, column {exposure.Column + 1}, {failing.Bearing.Degrees:0.0}°) at {clock.Say(failing.At)}: {Why(failing.Problem)}";
    }

    public static string Why(FrameProblem problem) => problem switch
    {
        FrameProblem.RidgeNeverLit => "the sun never reaches its ridge in this window",
        FrameProblem.RidgeNotYetLit => "the sun has not reached its ridge yet",
        FrameProblem.RidgeNoLongerLit => "the sun has left its ridge",
        FrameProblem.ValleyNotYetShaded => "the valley is not in shade yet",
        _ => "the sun has reached the valley",
    };
}
