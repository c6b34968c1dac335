using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Take;

/// <summary>One picture file of a take: what the camera wrote into it, and how bright it is.</summary>
/// <param name="Name">Of the file, as the user knows it; no two frames of a take share one.</param>
public sealed record ShotFrame(string Name)
{
    /// <summary>Make, model and serial number, as far as they are written; empty where nothing is.</summary>
    public string Camera { get; init; } = "";

    /// <summary>When the shutter opened, by the camera's own clock; null where the file does not say.</summary>
    public LocalDateTime? Taken { get; init; }

    /// <summary>Whether <see cref="Taken"/> is finer than a second.</summary>
    public bool HasSubSeconds { get; init; }

    /// <summary>Of the camera's clock from UTC, where the file says it.</summary>
    public Offset? Offset { get; init; }

    /// <summary>The time of the last fix of a GPS receiver, to the second at best.</summary>
    public Instant? GpsTime { get; init; }

    public GeoPoint? Place { get; init; }

    public ShotSettings Settings { get; init; } = new();

    /// <summary>Null where no embedded preview could be decoded.</summary>
    public Glance? Glance { get; init; }

    /// <summary>Null where there is no preview that could be compared with another.</summary>
    public View? View { get; init; }
}

/// <summary>What should stay the same over all frames of a set; null where the file does not say.</summary>
public sealed record ShotSettings
{
    public Duration? Exposure { get; init; }

    /// <summary>The f-number.</summary>
    public double? Aperture { get; init; }

    public double? Iso { get; init; }

    public Length? FocalLength { get; init; }

    public Length? FocusDistance { get; init; }

    /// <summary>In the words of the file.</summary>
    public string? WhiteBalance { get; init; }

    /// <summary>How the picture lies, 1 to 8 (EXIF 2.32, tag 0x0112); 1 is upright.</summary>
    public int? Lie { get; init; }

    /// <summary>Of the picture as stored.</summary>
    public int? PixelsWide { get; init; }

    /// <inheritdoc cref="PixelsWide"/>
    public int? PixelsHigh { get; init; }

    /// <summary>How much light the setting asks for [stops]: log₂(N²/t) − log₂(ISO/100), from what of the three is known;
    /// only differences mean anything.</summary>
    public double ExposureStops =>
        (Aperture is > 0 and var n ? 2 * Math.Log2(n) : 0)
        - (Exposure is { } t && t > Duration.Zero ? Math.Log2(t.TotalSeconds) : 0)
        - (Iso is > 0 and var iso ? Math.Log2(iso / 100) : 0);
}
