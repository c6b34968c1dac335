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
