using System.Runtime.Intrinsics;

namespace Glowcast.Benchmarks;

/// <summary>Eight eyes over the grid: the post at or before each, what is left to the eye itself [cells], and its height [m].</summary>
internal readonly struct SweepEyes(
    Vector256<int> major, Vector256<int> minor, Vector256<float> majorPart, Vector256<float> minorPart, Vector256<float> heightM)
{
    public Vector256<int> Major { get; } = major;

    public Vector256<int> Minor { get; } = minor;

    public Vector256<float> MajorPart { get; } = majorPart;

    public Vector256<float> MinorPart { get; } = minorPart;

    public Vector256<float> HeightM { get; } = heightM;
}
