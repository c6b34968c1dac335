namespace Glowcast.Engine.Take;

/// <summary>What is found out about joins, plans and choices, in sentences; the one place of them.</summary>
internal static class TakeWords
{
    public static string Of(FoundJoin join) => join.Join.Kind switch
    {
        JoinKind.NotLooked => $"Whether {join.To.Name} joins on to {join.From.Name} was not looked at: one of them has no preview that can be decoded.",
        JoinKind.Faint => $"Whether {join.To.Name} joins on to {join.From.Name} cannot be seen: there is too little in the pictures.",
        JoinKind.Same => $"{join.To.Name} shows the same as {join.From.Name}: the camera was not turned between them.",
        _ => $"{join.To.Name} does not join on to {join.From.Name}{(join.BetweenRows ? " above or below it" : "")}: a hole.",
    };

    public static string Of(PlanMismatch mismatch) => mismatch.Kind switch
    {
        MismatchKind.Lens => $"Shot at {mismatch.Found:0.#} mm; the plan has {mismatch.Planned:0.#} mm.",
        MismatchKind.Orientation => $"Shot in {Held(mismatch.Found)}; the plan has {Held(mismatch.Planned)}.",
        MismatchKind.Camera => $"The pictures are {mismatch.Found:0.00} times as long as high; those of the plan's camera {mismatch.Planned:0.00} times.",
        MismatchKind.Day => $"Shot {Math.Abs(mismatch.Found):0} days {(mismatch.Found > 0 ? "after" : "before")} the day of the plan, by the camera's clock. If that was wrong, say by how much, or name a frame whose moment is known.",
        MismatchKind.Place => $"Shot {mismatch.Found / 1000:0.#} km from the lookout of the plan.",
        MismatchKind.Columns => $"Rows of {mismatch.Found:0} frames; the plan has {mismatch.Planned:0}.",
        _ => $"Neighbours share {mismatch.Found:0.00} of a frame; the plan has {mismatch.Planned:0.00}.",
    };

    public static string Caution(PlanMismatch mismatch) => $"The take is not as the plan has it{(mismatch.Camera.Length > 0 ? $" ({mismatch.Camera})" : "")}. {Of(mismatch)}";

    public const string RowGoesOn = "The sweep goes on beyond it";

    public static string GoesOn(ShotFrame edge, ShotFrame beside) => $"{RowGoesOn}: {beside.Name} joins on to {edge.Name} and is no part of it.";

    public const string ToAndFro = "A row goes to and fro, as its pictures join.";

    public const string NoPictures = "Its joins were not looked at: the frames have no previews that can be decoded.";

    public static string Unseen(IReadOnlyList<string> names) =>
        $"{names.Count} frames have no preview that can be compared; their joins were not looked at: {string.Join(", ", names.Take(5))}{(names.Count > 5 ? " and others" : "")}.";

    private static string Held(double portrait) => portrait > 0.5 ? "portrait" : "landscape";
}
