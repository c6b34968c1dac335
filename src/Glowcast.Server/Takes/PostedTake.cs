using System.Text.Json;
using Glowcast.Engine.Take;
using NodaTime.Text;

namespace Glowcast.Server.Takes;

/// <summary>A take to be sorted: what its files say, not the files themselves. So the description of the service has it; <see cref="PostedTakes"/> reads it.</summary>
/// <param name="Plan">As for a forecast; it needs no lookout and no grids here. Without one the rhythm is found from the take.</param>
/// <param name="Forecast">The address of a forecast of this service to compare it with.</param>
/// <param name="Keep">Whether what it tells of that forecast is to be kept as a field note of its lookout.</param>
/// <param name="ClockErrorS">How far the camera's clock was ahead.</param>
/// <param name="KnownFrame">A frame whose moment is known, to set the clock by.</param>
internal sealed record PostedTake(
    IReadOnlyList<PostedFrame> Frames, JsonElement? Plan = null, PostedBorders? Borders = null, string? Forecast = null, bool Keep = false, double? ClockErrorS = null,
    KnownFrame? KnownFrame = null);

/// <param name="ShotAt">With Z or an offset.</param>
internal sealed record KnownFrame(string Name, string ShotAt);

/// <param name="Taken">By the camera's clock, such as 2026-02-14T06:45:09.07.</param>
/// <param name="OffsetFromUtc">Of that clock, such as -05:00.</param>
/// <param name="GpsTime">Of the last fix of a receiver, with Z.</param>
/// <param name="Lie">How the picture lies: EXIF orientation, 1 to 8.</param>
/// <param name="View">The picture, small, grey and upright: to see whether it joins on to its neighbours. Without it they are not looked at, and no set is called whole.</param>
/// <param name="Glance">How bright each of 16 × 12 parts is, row by row from the top, in stops below full white.</param>
internal sealed record PostedFrame(
    string Name, string? Taken = null, string? OffsetFromUtc = null, string? Camera = null, double? ExposureS = null, double? Aperture = null, double? Iso = null,
    double? FocalLengthMm = null, double? FocusDistanceM = null, string? WhiteBalance = null, int? Lie = null, int? PixelsWide = null, int? PixelsHigh = null,
    IReadOnlyList<float>? Glance = null, string? GpsTime = null, PostedView? View = null)
{
    private static readonly LocalDateTimePattern Time = LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:ss;FFFFFFFFF");
    private static readonly LocalDateTimePattern FineTime = LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:ss.fff");
    private static readonly OffsetPattern OffsetText = OffsetPattern.CreateWithInvariantCulture("+HH:mm");

    /// <summary>As it is to be posted.</summary>
    public static PostedFrame Of(ShotFrame frame)
    {
        var settings = frame.Settings;
        return new PostedFrame(
            frame.Name, frame.Taken is { } taken ? (frame.HasSubSeconds ? FineTime : Time).Format(taken) : null, frame.Offset is { } offset ? OffsetText.Format(offset) : null,
            frame.Camera, settings.Exposure?.TotalSeconds, settings.Aperture, settings.Iso, settings.FocalLength?.Millimetres, settings.FocusDistance?.Metres,
            settings.WhiteBalance, settings.Lie, settings.PixelsWide, settings.PixelsHigh, frame.Glance is { } glance ? Parts(glance) : null,
            frame.GpsTime is { } fix ? InstantPattern.General.Format(fix) : null, frame.View is { } view ? new PostedView(view.Wide, view.High, Convert.ToBase64String(view.Gray)) : null);
    }

    private static float[] Parts(Glance glance) =>
        [.. Enumerable.Range(0, Engine.Take.Glance.Rows).SelectMany(row => Enumerable.Range(0, Engine.Take.Glance.Columns).Select(column => MathF.Round(glance[row, column], 2)))];
}

/// <param name="Wide">Of the picture [pixels], 16 to 96, as <paramref name="High"/>.</param>
/// <param name="Gray">A byte a pixel in the encoding of sRGB, row by row from the top, in base64.</param>
internal sealed record PostedView(int Wide, int High, string Gray);

internal sealed record PostedBorders(IReadOnlyList<PostedSet> Sets, IReadOnlyList<string> Loose);

internal sealed record PostedSet(string First, string Last);
