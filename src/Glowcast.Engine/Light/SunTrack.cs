using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>The sun over a stretch of time, worked out at nodes and interpolated between them, to be asked millions of times.</summary>
/// <remarks>Earth-fixed vectors, nodes every two minutes, cubic Lagrange interpolation: within 1e-7° of the nodes' own theory.</remarks>
public sealed class SunTrack
{
    private const double NodeS = 120;

    private readonly (double X, double Y, double Z)[] nodes;

    private SunTrack(Interval interval, (double X, double Y, double Z)[] nodes) => (Interval, this.nodes) = (interval, nodes);

    public Interval Interval { get; }

    public double LengthS => Interval.Duration.TotalSeconds;

    public static SunTrack Over(Interval interval, double? deltaTSeconds = null) =>
        Of(interval, seconds => Sun.At(interval.Start + Duration.FromSeconds(seconds), deltaTSeconds).EarthFixedAu);

    /// <param name="earthFixedAu">From the centre of the earth to the sun [AU], at seconds after the start.</param>
    internal static SunTrack Of(Interval interval, Func<double, (double X, double Y, double Z)> earthFixedAu)
    {
        var nodes = new (double X, double Y, double Z)[(int)Math.Ceiling(interval.Duration.TotalSeconds / NodeS) + 4];
        for (var i = 0; i < nodes.Length; i++) nodes[i] = earthFixedAu((i - 1) * NodeS);
        return new SunTrack(interval, nodes);
    }

    public Instant At(double seconds) => Interval.Start + Duration.FromSeconds(seconds);

    public double SecondsAt(Instant instant) => (instant - Interval.Start).TotalSeconds;

    /// <summary>From the centre of the earth to the sun [AU], at seconds after the start.</summary>
    internal (double X, double Y, double Z) EarthFixedAu(double seconds)
    {
        var i = Math.Clamp((int)(seconds / NodeS), 0, nodes.Length - 4);
        var t = (seconds / NodeS) - i;
        // Lagrange weights on nodes −1, 0, 1, 2.
        var a = -t * (t - 1) * (t - 2) / 6;
        var b = (t + 1) * (t - 1) * (t - 2) / 2;
        var c = -(t + 1) * t * (t - 2) / 2;
        var d = (t + 1) * t * (t - 1) / 6;
        ref readonly var p = ref nodes[i];
        ref readonly var q = ref nodes[i + 1];
        ref readonly var r = ref nodes[i + 2];
        ref readonly var s = ref nodes[i + 3];
        return (
            (a * p.X) + (b * q.X) + (c * r.X) + (d * s.X),
            (a * p.Y) + (b * q.Y) + (c * r.Y) + (d * s.Y),
            (a * p.Z) + (b * q.Z) + (c * r.Z) + (d * s.Z));
    }
}
