namespace Glowcast.Engine.Take;

/// <summary>A join of a set, as its pictures show it.</summary>
/// <param name="From">The frame shot first.</param>
/// <param name="To">Its neighbour in the row, or the frame above or below it.</param>
/// <param name="BetweenRows">Of frames above one another.</param>
/// <param name="IsSeen">The pictures join there, as the set means them to.</param>
/// <param name="BrighterStops">The second than the first, in what both show; null where the join is not seen.</param>
public sealed record FoundJoin(ShotFrame From, ShotFrame To, bool BetweenRows, Join Join, bool IsSeen, double? BrighterStops)
{
    /// <summary>It was looked at, and there was enough to be seen, and nothing joins.</summary>
    public bool IsHole => !IsSeen && Join.Kind is not (JoinKind.NotLooked or JoinKind.Faint);

    public bool IsLooked => Join.Kind != JoinKind.NotLooked;
}
