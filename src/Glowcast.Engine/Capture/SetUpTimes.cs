using NodaTime;

namespace Glowcast.Engine.Capture;

/// <summary>What is done at the place before the first set, and how long each takes.</summary>
/// <remarks>docs/model.md, Capture eq. 29. Common practice; in winter gloves add about ten minutes.</remarks>
public sealed record SetUpTimes
{
    /// <summary>A practised hand at a known place.</summary>
    public static readonly SetUpTimes Quick = Of(60, 20, 15, 15, 60, 20, 20);

    public static readonly SetUpTimes Usual = Of(150, 60, 30, 40, 90, 45, 40);

    /// <summary>A new place, uneven ground, cold hands.</summary>
    public static readonly SetUpTimes Slow = Of(600, 180, 60, 90, 240, 120, 90);

    /// <summary>Choosing the spot, legs out, weight on.</summary>
    public Duration Tripod { get; init => field = Sensible.NotNegative(value, nameof(Tripod)); }

    public Duration LevelBase { get; init => field = Sensible.NotNegative(value, nameof(LevelBase)); }

    /// <summary>Camera on, slid to a known pupil mark.</summary>
    public Duration Mount { get; init => field = Sensible.NotNegative(value, nameof(Mount)); }

    /// <summary>Roll and pitch, click stop or step angle.</summary>
    public Duration LevelCamera { get; init => field = Sensible.NotNegative(value, nameof(LevelCamera)); }

    /// <summary>Sweeping a row once, both ends seen, frames counted.</summary>
    public Duration RehearseRow { get; init => field = Sensible.NotNegative(value, nameof(RehearseRow)); }

    /// <summary>By hand at a magnified view, then locked.</summary>
    public Duration Focus { get; init => field = Sensible.NotNegative(value, nameof(Focus)); }

    /// <summary>Manual exposure, sensitivity, white balance, raw, stabiliser off.</summary>
    public Duration Settings { get; init => field = Sensible.NotNegative(value, nameof(Settings)); }

    /// <summary>From arriving at the spot to being ready for the marker frame.</summary>
    public Duration Before(int rows) =>
        Tripod + LevelBase + Mount + LevelCamera + (RehearseRow * Sensible.AtLeast(1, rows, nameof(rows), "The number of rows")) + Focus + Settings;

    private static SetUpTimes Of(
        double tripodS, double levelBaseS, double mountS, double levelCameraS, double rehearseRowS, double focusS, double settingsS) => new()
        {
            Tripod = Duration.FromSeconds(tripodS),
            LevelBase = Duration.FromSeconds(levelBaseS),
            Mount = Duration.FromSeconds(mountS),
            LevelCamera = Duration.FromSeconds(levelCameraS),
            RehearseRow = Duration.FromSeconds(rehearseRowS),
            Focus = Duration.FromSeconds(focusS),
            Settings = Duration.FromSeconds(settingsS),
        };
}
