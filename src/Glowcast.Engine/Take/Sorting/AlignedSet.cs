namespace Glowcast.Engine.Take;

/// <summary>A frame in its place of a set.</summary>
/// <param name="Frame">Its place in the session.</param>
/// <param name="Position">Its place in the rhythm of the set, from 0.</param>
/// <param name="IsAgain">The frame before it shows the same place of the set.</param>
internal readonly record struct PlacedFrame(int Frame, int Position, bool IsAgain);

/// <summary>A stretch of a session taken for one set.</summary>
/// <param name="Marker">The frame that opens it; null for none.</param>
/// <param name="Frames">In the order they were shot, at least one.</param>
internal sealed record AlignedSet(int? Marker, IReadOnlyList<PlacedFrame> Frames)
{
    public int First => Frames[0].Frame;

    public int Last => Frames[^1].Frame;

    /// <summary>Places that have a frame.</summary>
    public int Filled => Frames.Count(frame => !frame.IsAgain);
}

/// <summary>A session laid out in sets.</summary>
/// <param name="Score">The logarithm of how likely all of it is.</param>
internal sealed record AlignedRun(double Score, IReadOnlyList<AlignedSet> Sets);

/// <summary>What is not to be considered, to see how sure a layout is: a set that begins with one frame, or ends with one.</summary>
internal sealed record Forbidden(int Begin = -1, int End = -1);
