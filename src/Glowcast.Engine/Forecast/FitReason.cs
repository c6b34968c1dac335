using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>What keeps a set from its light, or its starts from more room.</summary>
public enum FitReasonCode
{
    /// <summary>Some bearings come into the light later than the rest.</summary>
    LateStrip,

    /// <summary>Some bearings lose it earlier than the rest.</summary>
    EarlyStrip,

    /// <summary>Some bearings have none in the window.</summary>
    DarkStrip,

    /// <summary>The set takes longer than its light lasts.</summary>
    SetTooLong,

    /// <summary>There are starts from which all have their light by the best estimate, but fewer than they are sure by.</summary>
    Unsure,

    /// <summary>Ground past the edge of the grid could stand in the way.</summary>
    UnknownBeyond,

    /// <summary>Through the air the ridge cannot be told from the sky behind it.</summary>
    RidgeNotSeen,

    /// <summary>The plan begins before the first possible start.</summary>
    TooEarly,

    /// <summary>The plan begins after the last possible start.</summary>
    TooLate,
}

/// <summary>One reason, with the bearings and the ground that it is about.</summary>
/// <param name="Strip">Null where it is about all of the span.</param>
public sealed record FitReason(FitReasonCode Code, BearingSpan? Strip)
{
    /// <summary>When the light of those bearings comes, or goes; of a set too long, when the light ends. Null where there is none.</summary>
    public Instant? At { get; init; }

    /// <summary>What stands between those bearings and the sun then; null where nothing is known of it, and where light is only too weak.</summary>
    public EdgeHorizon? Horizon { get; init; }

    /// <summary>By how much the set is too long, or a start too early or too late; of starts, how long they last.</summary>
    public Duration? By { get; init; }

    /// <summary>How far the grid reaches towards the sun, where what lies beyond is not known.</summary>
    public Length? GridEdge { get; init; }

    /// <summary>The first possible start were nothing asked of those bearings; null where there would still be none.</summary>
    public Instant? EarliestWithout { get; init; }

    /// <summary>The last.</summary>
    public Instant? LatestWithout { get; init; }
}
