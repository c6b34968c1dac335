namespace Glowcast.Engine.Measures;

/// <summary>The bearings of a picture, clockwise from <see cref="From"/> to <see cref="To"/>; it may cross north.</summary>
/// <remarks>Never empty: its width lies in (0°, 360°). A sealed class, so that no default value exists.</remarks>
public sealed record BearingSpan
{
    /// <exception cref="ArgumentException">The two bearings are the same.</exception>
    public BearingSpan(Azimuth from, Azimuth to)
    {
        if (from == to) throw new ArgumentException($"A span must be wider than zero; both ends are {from}.", nameof(to));
        (From, To) = (from, to);
    }

    public static BearingSpan FromDegrees(double from, double to) => new(Azimuth.FromDegrees(from), Azimuth.FromDegrees(to));

    public Azimuth From { get; }

    public Azimuth To { get; }

    public Angle Width => From.ClockwiseTo(To);

    public Azimuth Centre => From + (Width / 2);

    /// <summary>Both ends belong to the span.</summary>
    public bool Contains(Azimuth bearing) => From.ClockwiseTo(bearing) <= Width;

    /// <summary>Where a bearing falls: 0 at <see cref="From"/>, 1 at <see cref="To"/>; outside the span below 0 or above 1.</summary>
    public double Share(Azimuth bearing)
    {
        var fromCentre = Centre.TurnTo(bearing);
        return 0.5 + (fromCentre / Width);
    }

    public override string ToString() => $"{From}..{To}";
}
