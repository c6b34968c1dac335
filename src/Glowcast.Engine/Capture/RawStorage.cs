using NodaTime;

namespace Glowcast.Engine.Capture;

/// <summary>What the planned sets take on the card.</summary>
/// <remarks>docs/model.md, Capture eq. 30.</remarks>
/// <param name="Exposures">Marker frames included.</param>
/// <param name="BytesEach">Before headers and previews.</param>
public sealed record RawStorage(int Exposures, long BytesEach)
{
    private const double BitsPerByte = 8;

    public long Bytes => Exposures * BytesEach;

    public static RawStorage Of(SetLayout layout)
    {
        var settings = layout.Settings;
        var marker = settings.Times.Marker > Duration.Zero ? 1 : 0;
        var exposures = (settings.Repeats + 1) * ((layout.FramesPerSet * settings.Bracket.Shots) + marker);
        var pixels = (double)layout.Camera.PixelsWide * layout.Camera.PixelsHigh;
        return new RawStorage(exposures, (long)Math.Ceiling(pixels * settings.RawBitsPerPixel / BitsPerByte));
    }
}
