using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>The planned set in a window of a season: by the same judge as a forecast's, over the table of the season.</summary>
/// <param name="Chance">That every exposure has its light.</param>
/// <param name="EarliestStart">Null where no start is possible.</param>
/// <param name="LatestStart">Null where no start is possible.</param>
/// <param name="Start">The one that is judged: the plan's, or the one advised.</param>
/// <param name="Middle">Of the sets, begun then.</param>
/// <param name="Room">From the first possible start to the last; negative by how much the set is too long.</param>
/// <param name="IsClose">Within what the table may be off by, the verdict could be another: ask a forecast.</param>
public sealed record DayFit(
    Verdict Verdict, double Chance, Instant? EarliestStart, Instant? LatestStart, Instant Start, Instant Middle, Duration Room, bool IsClose);
