using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Light;

/// <summary>The sky view of ground: the share of an even sky's light on open level ground that reaches it, 0 to 1, weighed by the cosine to its normal.</summary>
/// <remarks>
/// V = mean over all azimuths A of cos S sin²Z + sin S cos(A − aspect)(Z − sin Z cos Z), Z = 90° − H, H the greatest of the terrain horizon, the ground's own
/// plane and the horizontal (Dozier and Frew 1990, IEEE Transactions on Geoscience and Remote Sensing 28, 963). An inclined plane in the open has (1 + cos S)/2. The terrain
/// is looked at in <see cref="Directions"/> directions of its own, since the tables of horizons hold only what the sun can reach; the tangents are taken linearly between.
/// </remarks>
public static class SkyView
{
    /// <summary>In which the horizon of each place is looked for, from north through east.</summary>
    public const int Directions = 24;

    // The plane of the ground is known in every direction and is integrated more finely.
    private const int Fine = 5;
    private const int Steps = Directions * Fine;

    private static readonly (double Sin, double Cos)[] Bearings = [.. Enumerable.Range(0, Steps).Select(step => Math.SinCos(Math.Tau * step / Steps))];

    private static readonly FanDirections Around = new(
        [.. Enumerable.Range(0, Directions).Select(i => Azimuth.FromDegrees(360.0 * i / Directions))],
        [.. Enumerable.Repeat(0f, Directions)], [.. Enumerable.Repeat(float.PositiveInfinity, Directions)]);

    /// <summary>Of each place, in their order; the ground nearer than one cell is its own plane.</summary>
    /// <param name="normals">One a place; where it is not known the ground is taken as level.</param>
    /// <param name="progress">Share done, 0 to 1.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static double[] Of(
        IReadOnlyList<Place> places, IReadOnlyList<GroundNormal?> normals, ElevationGrid grid, SightModel model,
        IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(places);
        ArgumentNullException.ThrowIfNull(normals);
        var views = new double[places.Count];
        new HorizonFan(grid, model, Around, isExact: false).Run(places, (i, horizonRad) => views[i] = Share(normals[i] ?? GroundNormal.Level, horizonRad), progress, cancel);
        return views;
    }

    /// <summary>From a normal and the horizon all around.</summary>
    /// <param name="horizonRad">Evenly from north through east, any divisor of 120 of them [rad]; NaN where nothing stands above the horizontal.</param>
    public static double Share(GroundNormal normal, ReadOnlySpan<float> horizonRad)
    {
        Span<double> tangents = stackalloc double[horizonRad.Length + 1];
        for (var i = 0; i < horizonRad.Length; i++) tangents[i] = horizonRad[i] > 0 ? Math.Tan(horizonRad[i]) : 0;
        tangents[^1] = tangents[0];
        var perHorizon = Steps / horizonRad.Length;
        var sum = 0.0;
        for (var step = 0; step < Steps; step++)
        {
            var (before, share) = (step / perHorizon, step % perHorizon / (double)perHorizon);
            sum += Towards(normal, Bearings[step], tangents[before] + (share * (tangents[before + 1] - tangents[before])));
        }
        return Math.Clamp(sum / Steps, 0, 1);
    }

    // With t = tan H: sin²Z = 1/(1 + t²), sin Z cos Z = t/(1 + t²), Z = 90° − atan t.
    private static double Towards(GroundNormal normal, (double Sin, double Cos) bearing, double horizonTan)
    {
        var downhill = (normal.East * bearing.Sin) + (normal.North * bearing.Cos);
        var tan = Math.Max(Math.Max(horizonTan, -downhill / normal.Up), 0);
        var sinSquared = 1 / (1 + (tan * tan));
        return (normal.Up * sinSquared) + (downhill * ((Math.PI / 2) - Math.Atan(tan) - (tan * sinSquared)));
    }
}
