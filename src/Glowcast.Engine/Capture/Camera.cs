using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Capture;

/// <summary>A camera body, held level: the sensor's size and its pixels as the maker gives them.</summary>
public sealed record Camera
{
    /// <exception cref="ArgumentOutOfRangeException">A size or a number of pixels is zero or less.</exception>
    public Camera(Length sensorWidth, Length sensorHeight, int pixelsWide, int pixelsHigh)
    {
        SensorWidth = Sensible.Positive(sensorWidth, nameof(sensorWidth), "A sensor's width");
        SensorHeight = Sensible.Positive(sensorHeight, nameof(sensorHeight), "A sensor's height");
        PixelsWide = Sensible.AtLeast(1, pixelsWide, nameof(pixelsWide), "The number of pixels across");
        PixelsHigh = Sensible.AtLeast(1, pixelsHigh, nameof(pixelsHigh), "The number of pixels down");
    }

    public Length SensorWidth { get; }

    public Length SensorHeight { get; }

    public int PixelsWide { get; }

    public int PixelsHigh { get; }
}

/// <summary>A rectilinear lens at the focal length and the f-number it will be used at.</summary>
public sealed record Lens
{
    /// <exception cref="ArgumentOutOfRangeException">The focal length or the f-number is zero or less.</exception>
    public Lens(Length focalLength, double aperture)
    {
        FocalLength = Sensible.Positive(focalLength, nameof(focalLength), "A focal length");
        Aperture = Sensible.Positive(aperture, nameof(aperture), "An f-number");
    }

    public Length FocalLength { get; }

    /// <summary>The f-number N: focal length over entrance pupil.</summary>
    public double Aperture { get; }
}

/// <summary>How the body is held: which side of the sensor lies along the horizon.</summary>
public enum Orientation
{
    Landscape,
    Portrait,
}
