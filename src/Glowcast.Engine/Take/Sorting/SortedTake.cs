using NodaTime;

namespace Glowcast.Engine.Take;

/// <summary>A take, sorted.</summary>
/// <param name="Sets">In the order they were shot; those of one camera after those of another.</param>
/// <param name="Loose">Frames that belong to no set.</param>
/// <param name="WithoutTime">Names of frames that do not say when they were shot; they are not sorted.</param>
/// <param name="Cautions">What the user should know, a sentence each.</param>
public sealed record SortedTake(
    IReadOnlyList<FoundSet> Sets, IReadOnlyList<LooseFrame> Loose, IReadOnlyList<string> WithoutTime, IReadOnlyList<string> Cautions)
{
    /// <summary>Every frame with a time, in the order they were shot; camera by camera.</summary>
    public IReadOnlyList<ShotFrame> InOrder { get; init; } = [];

    /// <summary>Which of sets that show the same is the better one, and why.</summary>
    public IReadOnlyList<RepeatChoice> Choices { get; init; } = [];

    /// <summary>All sets, the best first.</summary>
    public IReadOnlyList<RankedSet> Ranking { get; init; } = [];

    /// <summary>Frames of other sets that can stand in for those that are missing.</summary>
    public IReadOnlyList<Rescue> Rescues { get; init; } = [];
}

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

/// <summary>Why a frame belongs to no set.</summary>
public enum LooseKind
{
    /// <summary>A marker frame, before a set or by itself.</summary>
    Marker,

    /// <summary>A picture by itself.</summary>
    Alone,

    /// <summary>A copy of another file.</summary>
    Copy,
}

/// <param name="Reason">A sentence.</param>
public sealed record LooseFrame(ShotFrame Frame, LooseKind Kind, string Reason);

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

    /// <summary>In what it is not as the plan has it.</summary>
    public IReadOnlyList<PlanMismatch> Mismatches { get; init; } = [];

    /// <summary>How it was paced.</summary>
    public required SetPace Pace { get; init; }
}

/// <summary>A frame of a set.</summary>
/// <param name="Row">With a plan 0 is the topmost; without, the one shot first.</param>
/// <param name="Column">With a plan 0 is the leftmost; without, the one shot first.</param>
/// <param name="Shot">In the bracket of the frame, from 0.</param>
/// <param name="IsAgain">The same place was shot just before.</param>
/// <param name="AfterFirst">When it was shot.</param>
public sealed record SetFrame(ShotFrame Frame, int Row, int Column, int Shot, bool IsAgain, Duration AfterFirst);

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

/// <summary>The best of some sets that show the same.</summary>
/// <param name="Sets">Their places in the take, from 0.</param>
/// <param name="Better">The place of the best.</param>
/// <param name="Reason">A sentence.</param>
public sealed record RepeatChoice(IReadOnlyList<int> Sets, int Better, string Reason);

/// <summary>What the user says of a take's borders.</summary>
/// <param name="Sets">Names of the first and last frame of sets; all frames between belong to them.</param>
/// <param name="Loose">Names of frames that belong to no set.</param>
public sealed record HandBorders(IReadOnlyList<(string First, string Last)> Sets, IReadOnlySet<string> Loose)
{
    public static HandBorders None { get; } = new([], new HashSet<string>());
}
