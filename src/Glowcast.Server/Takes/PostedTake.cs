using System.Text.Json;
using Glowcast.Engine.Take;

namespace Glowcast.Server.Takes;

/// <summary>A take to be sorted: what its files say, not the files themselves.</summary>
/// <param name="Plan">As for a forecast; it needs no lookout and no grids here. Without one the rhythm is found from the take.</param>
internal sealed record PostedTake(IReadOnlyList<PostedFrame> Frames, JsonElement? Plan = null, PostedBorders? Borders = null)
{
    internal HandBorders HandBorders => Borders is { } hand
        ? new HandBorders([.. hand.Sets.Select(set => (set.First, set.Last))], hand.Loose.ToHashSet(StringComparer.Ordinal))
        : HandBorders.None;
}

/// <param name="Taken">By the camera's clock, such as 2026-02-14T06:45:09.07.</param>
/// <param name="OffsetFromUtc">Of that clock, such as -05:00.</param>
/// <param name="Lie">How the picture lies: EXIF orientation, 1 to 8.</param>
/// <param name="Glance">How bright each of 16 × 12 parts is, row by row from the top, in stops below full white.</param>
internal sealed record PostedFrame(
    string Name, string? Taken = null, string? OffsetFromUtc = null, string? Camera = null, double? ExposureS = null, double? Aperture = null, double? Iso = null,
    double? FocalLengthMm = null, double? FocusDistanceM = null, string? WhiteBalance = null, int? Lie = null, int? PixelsWide = null, int? PixelsHigh = null,
    IReadOnlyList<float>? Glance = null);

internal sealed record PostedBorders(IReadOnlyList<PostedSet> Sets, IReadOnlyList<string> Loose);

internal sealed record PostedSet(string First, string Last);
