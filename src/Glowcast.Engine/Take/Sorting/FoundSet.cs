using NodaTime;

namespace Glowcast.Engine.Take;

/// <summary>Whether a set has all its frames.</summary>
public enum Wholeness
{
    /// <summary>Every frame of the plan is there once, in its time, and nothing speaks against it.</summary>
    Whole,

    /// <summary>As many frames as the plan has, but something is odd; or there is no plan to count against.</summary>
    Uncertain,

    /// <summary>Frames are missing.</summary>
    NotWhole,
}

/// <summary>The frames of one set.</summary>
/// <param name="Frames">In the order they were shot; at least one.</param>
/// <param name="Marker">The marker frame before it; null for none.</param>
/// <param name="Rows">Rows of the plan, or as guessed.</param>
/// <param name="Columns">Frames in a row, spare frames included.</param>
/// <param name="Missing">Places without a frame.</param>
/// <param name="Changed">What should have been locked.</param>
/// <param name="Confidence">That it begins and ends where it does, 0 to 1.</param>
/// <param name="Reasons">For its borders and for its wholeness, a sentence each.</param>
public sealed record FoundSet(
    string Camera, IReadOnlyList<SetFrame> Frames, ShotFrame? Marker, int Rows, int Columns, IReadOnlyList<MissingFrame> Missing,
    IReadOnlyList<SettingChange> Changed, Wholeness Wholeness, double Confidence, IReadOnlyList<string> Reasons)
{
    public ShotFrame First => Frames[0].Frame;

    public ShotFrame Last => Frames[^1].Frame;

    /// <summary>Frames shot more than once: the later ones.</summary>
    public IEnumerable<SetFrame> Doubled => Frames.Where(frame => frame.IsAgain);

    /// <summary>The user said where it begins and ends.</summary>
    public bool IsByHand { get; init; }

    /// <summary>How its brightness ran; null where the previews do not tell.</summary>
    public StripDrift? Drift { get; init; }

    /// <summary>Which way its rows were swept.</summary>
    public required SweptOrder Order { get; init; }

    /// <summary>Its joins, as the pictures show them: along the rows, then between them.</summary>
    public IReadOnlyList<FoundJoin> Joins { get; init; } = [];

    /// <summary>All its places have a frame, and every frame joins on.</summary>
    public bool CanBeStitched { get; init; }

    /// <summary>As many frames as the plan has, each in its time, and nothing speaks against it but that none of its joins could be
    /// looked at; false where it is whole, since more is then known.</summary>
    public bool IsCompleteByCount { get; init; }

    /// <summary>In what it is not as the plan has it.</summary>
    public IReadOnlyList<PlanMismatch> Mismatches { get; init; } = [];

    /// <summary>How it was paced.</summary>
    public required SetPace Pace { get; init; }
}

/// <summary>A place of a set without a frame.</summary>
/// <param name="After">The last frame before it; null where it would be the first.</param>
public sealed record MissingFrame(int Row, int Column, int Shot, string? After);

/// <summary>A setting that should have stayed the same.</summary>
/// <param name="Setting">In a word: exposure, aperture, ISO, white balance, focal length, focus distance, lie, size.</param>
/// <param name="At">The first frame that has the new value.</param>
public sealed record SettingChange(string Setting, string From, string To, string At);

/// <summary>The times of a set, from opening to opening; null where it has none of the kind.</summary>
/// <param name="Step">Usual, from frame to frame in a row.</param>
/// <param name="LongestSideGap">Between two neighbours in a row that are both there.</param>
/// <param name="LongestVerticalGap">Between a frame and the one above or below it.</param>
/// <param name="FirstToLast">The whole set.</param>
public sealed record SetPace(Duration? Step, Duration? RowStep, Duration? LongestSideGap, Duration? LongestVerticalGap, Duration FirstToLast);
