using System.Runtime.Intrinsics;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>The directions of a fan, and between which tangents a horizon is of interest in each.</summary>
internal sealed class FanDirections(IReadOnlyList<Azimuth> azimuths, IReadOnlyList<float> floors, IReadOnlyList<float> ceilings)
{
    public int Count => azimuths.Count;

    public Azimuth this[int index] => azimuths[index];

    /// <summary>Whatever angle the horizon has.</summary>
    public static FanDirections All(IReadOnlyList<Azimuth> azimuths)
    {
        ArgumentNullException.ThrowIfNull(azimuths);
        return new FanDirections(
            azimuths, [.. Enumerable.Repeat(float.NegativeInfinity, azimuths.Count)], [.. Enumerable.Repeat(float.PositiveInfinity, azimuths.Count)]);
    }

    public static FanDirections Of(HorizonDirections directions)
    {
        var all = Enumerable.Range(0, directions.Count).Select(i => directions[i]).ToList();
        return new FanDirections(
            all.ConvertAll(direction => Azimuth.FromRadians(direction.AzimuthRad)),
            all.ConvertAll(direction => Tangent(direction.FloorRad)),
            all.ConvertAll(direction => Tangent(direction.CeilingRad)));

        static float Tangent(double angleRad) => angleRad <= -Math.PI / 2 ? float.NegativeInfinity
            : angleRad >= Math.PI / 2 ? float.PositiveInfinity
            : (float)Math.Tan(angleRad);
    }

    /// <summary>All of them, eight or fewer together that step along one axis of a grid.</summary>
    public IReadOnlyList<FanPacket> Packets(GridPosts posts)
    {
        var axes = azimuths.Select(azimuth => RayAxes.For(posts, azimuth)).ToArray();
        var packets = new List<FanPacket>();
        for (var first = 0; first < Count;)
        {
            var end = first + 1;
            while (end < Count && end - first < Vector256<float>.Count && axes[end] == axes[first]) end++;
            packets.Add(new FanPacket(first, end - first, axes[first], Lanes(floors, first, end), Lanes(ceilings, first, end)));
            first = end;
        }
        return packets;
    }

    private static Vector256<float> Lanes(IReadOnlyList<float> values, int first, int end)
    {
        Span<float> lanes = stackalloc float[Vector256<float>.Count];
        for (var i = 0; i < lanes.Length; i++) lanes[i] = values[Math.Min(first + i, end - 1)];
        return Vector256.Create<float>(lanes);
    }
}

/// <summary>At most eight directions that step along one axis; where there are fewer the last one stands for the rest.</summary>
/// <param name="Floor">Tangents no greater than these are of no interest.</param>
/// <param name="Ceiling">One above its ceiling is answer enough.</param>
internal sealed record FanPacket(int First, int Count, RayAxes Axes, Vector256<float> Floor, Vector256<float> Ceiling);
