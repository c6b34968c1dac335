using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Take;

/// <summary>How the clock of a camera is told from true time.</summary>
public enum ClockSource
{
    /// <summary>The user gave the error.</summary>
    Typed,

    /// <summary>The user gave the instant of one frame.</summary>
    KnownFrame,

    /// <summary>From the time of the GPS receiver in the frames.</summary>
    Gps,

    /// <summary>The frames say how far the clock is from UTC; that it is right is assumed.</summary>
    FrameOffset,

    /// <summary>The clock is taken to be right in the time zone of the lookout.</summary>
    TimeZone,
}

/// <summary>Turns the times of a camera into instants.</summary>
/// <param name="AheadOfUtc">What the clock shows, less UTC.</param>
/// <param name="Spread">Of what it was told from, one standard deviation; null where there is only one witness.</param>
public sealed record CameraClock(ClockSource Source, Duration AheadOfUtc, Duration? Spread)
{
    /// <summary>Whose clock it is; null for that of every frame.</summary>
    public string? Camera { get; init; }

    /// <summary>The clock of the frames of other cameras; null where it is not known.</summary>
    public CameraClock? Others { get; init; }

    private static readonly Duration GpsFixMayBeOld = Duration.FromMinutes(5);

    /// <param name="frame">Null where it has no time.</param>
    public Instant? At(ShotFrame frame)
    {
        ArgumentNullException.ThrowIfNull(frame);
        return Camera is null || Camera == frame.Camera ? Shown(frame) - AheadOfUtc : Others?.At(frame);
    }

    /// <summary>When a frame was shot, as far as more than the camera's own clock tells it.</summary>
    /// <returns>Null where only the camera says it.</returns>
    public Instant? Witnessed(ShotFrame frame) => Camera is not null && Camera != frame.Camera ? Others?.Witnessed(frame) : Source is ClockSource.Typed or ClockSource.KnownFrame or ClockSource.Gps ? At(frame) : null;

    /// <summary>From one frame whose instant is known.</summary>
    /// <exception cref="BadInputException">The frame has no time of its own.</exception>
    public static CameraClock Of(ShotFrame known, Instant at)
    {
        ArgumentNullException.ThrowIfNull(known);
        return Shown(known) is { } shown
            ? new CameraClock(ClockSource.KnownFrame, shown - at, null)
            : throw new BadInputException(known.Name, "Has no time of its own, so no clock can be set by it; name a frame that has.");
    }

    /// <summary>From one frame whose instant is known, for the frames of its camera; for those of others, from what they say themselves.</summary>
    /// <param name="frames">Of the whole take.</param>
    /// <exception cref="BadInputException">The frame has no time of its own.</exception>
    public static CameraClock Of(ShotFrame known, Instant at, IReadOnlyList<ShotFrame> frames, DateTimeZone? zone)
    {
        ArgumentNullException.ThrowIfNull(known);
        ArgumentNullException.ThrowIfNull(frames);
        var others = frames.Where(frame => frame.Camera != known.Camera).ToList();
        return others.Count == 0 ? Of(known, at) : Of(known, at) with { Camera = known.Camera, Others = Of(others, zone) };
    }

    /// <summary>From what the frames themselves say, else from a time zone; each camera by itself.</summary>
    /// <param name="error">How far the clock is ahead of the right time, typed by the user; null where it is not known.</param>
    /// <returns>Null where nothing tells.</returns>
    public static CameraClock? Of(IReadOnlyList<ShotFrame> frames, DateTimeZone? zone = null, Duration? error = null)
    {
        ArgumentNullException.ThrowIfNull(frames);
        CameraClock? clock = null;
        // The camera with the most frames comes first.
        foreach (var camera in frames.GroupBy(frame => frame.Camera).OrderBy(camera => camera.Count()))
            if (OfOne([.. camera], zone, error) is { } own) clock = own with { Camera = camera.Key, Others = clock };
        return clock is { Others: null } only && frames.All(frame => frame.Camera == only.Camera) ? only with { Camera = null } : clock;
    }

    private static CameraClock? OfOne(IReadOnlyList<ShotFrame> frames, DateTimeZone? zone, Duration? error)
    {
        var ownOffset = OfOffsets(frames) ?? OfZone(frames, zone);
        if (error is { } ahead) return ownOffset is { } own ? own with { Source = ClockSource.Typed, AheadOfUtc = own.AheadOfUtc + ahead } : null;
        return OfGps(frames) ?? ownOffset;
    }

    // The receiver's time is that of its last fix, a little before the frame: the clock seems ahead by the age of the fix. The
    // freshest fixes, a quarter of all, are believed.
    private static CameraClock? OfGps(IReadOnlyList<ShotFrame> frames)
    {
        var ahead = frames.Where(frame => frame.GpsTime is not null).Select(frame => Shown(frame) - frame.GpsTime).OfType<Duration>().Order().ToList();
        if (ahead.Count == 0) return null;
        var fresh = ahead[(ahead.Count - 1) / 4];
        var near = ahead.FindAll(each => each - fresh < GpsFixMayBeOld && fresh - each < GpsFixMayBeOld).ConvertAll(each => (each - fresh).TotalSeconds);
        var spread = near.Count > 1 ? Duration.FromSeconds(Math.Sqrt(near.Average(off => off * off))) : (Duration?)null;
        return new CameraClock(ClockSource.Gps, fresh, spread);
    }

    private static CameraClock? OfOffsets(IReadOnlyList<ShotFrame> frames) =>
        frames.Select(frame => frame.Offset).FirstOrDefault(offset => offset is not null) is { } offset
            ? new CameraClock(ClockSource.FrameOffset, Duration.FromSeconds(offset.Seconds), null)
            : null;

    private static CameraClock? OfZone(IReadOnlyList<ShotFrame> frames, DateTimeZone? zone) =>
        zone is not null && frames.FirstOrDefault(frame => frame.Taken is not null)?.Taken is { } taken
            ? new CameraClock(ClockSource.TimeZone, Duration.FromSeconds(taken.InZoneLeniently(zone).Offset.Seconds), null)
            : null;

    private static Instant? Shown(ShotFrame frame) => frame.Taken?.InUtc().ToInstant();
}
