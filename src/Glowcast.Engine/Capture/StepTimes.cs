using NodaTime;

namespace Glowcast.Engine.Capture;

/// <summary>How long each movement of a set takes. The defaults are common practice for 100–250 mm on a tripod.</summary>
public sealed record StepTimes
{
    /// <summary>Turning to the next frame: 1–3 s with click stops, 3–5 s reading a scale in gloves.</summary>
    public Duration Rotate { get; init => field = Sensible.NotNegative(value, nameof(Rotate)); } = Duration.FromSeconds(1.5);

    /// <summary>Waiting for the tripod to come to rest: below 100 mm 0.5–1 s, from 300 mm or in wind 2–5 s.</summary>
    public Duration Settle { get; init => field = Sensible.NotNegative(value, nameof(Settle)); } = Duration.FromSeconds(2);

    /// <summary>Self-timer or remote release: from pressing to the shutter's opening, once for each frame.</summary>
    public Duration ReleaseDelay { get; init => field = Sensible.NotNegative(value, nameof(ReleaseDelay)); } = Duration.Zero;

    /// <summary>The shutter time as metered.</summary>
    public Duration Exposure
    {
        get;
        init => field = value > Duration.Zero
            ? value
            : throw new ArgumentOutOfRangeException(nameof(Exposure), value, "An exposure must be longer than zero.");
    } = Duration.FromSeconds(0.02);

    /// <summary>Until the camera is ready again after an exposure.</summary>
    public Duration Write { get; init => field = Sensible.NotNegative(value, nameof(Write)); } = Duration.FromSeconds(0.5);

    /// <summary>Tilting to the next row.</summary>
    public Duration RowChange { get; init => field = Sensible.NotNegative(value, nameof(RowChange)); } = Duration.FromSeconds(5);

    /// <summary>Turning back to the side where the rows begin; only one-way rows need it.</summary>
    public Duration Return { get; init => field = Sensible.NotNegative(value, nameof(Return)); } = Duration.FromSeconds(3);

    /// <summary>The marker frame (a hand before the lens) that begins each set; zero for none.</summary>
    public Duration Marker { get; init => field = Sensible.NotNegative(value, nameof(Marker)); } = Duration.FromSeconds(3);

    /// <summary>From the end of a set to the marker of its repeat.</summary>
    public Duration RepeatGap { get; init => field = Sensible.NotNegative(value, nameof(RepeatGap)); } = Duration.FromSeconds(4);
}
