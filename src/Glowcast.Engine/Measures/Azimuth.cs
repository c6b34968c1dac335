namespace Glowcast.Engine.Measures;

/// <summary>A true bearing: clockwise from true north, always in [0°, 360°).</summary>
/// <remarks>A bearing is not an angle: it wraps, and two of them cannot be added. The default value is north.</remarks>
public readonly record struct Azimuth
{
    private Azimuth(double degrees) => Degrees = degrees;

    public double Degrees { get; }

    public double Radians => double.DegreesToRadians(Degrees);

    /// <summary>Wraps any finite number of degrees into [0°, 360°).</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is NaN or infinite.</exception>
    public static Azimuth FromDegrees(double degrees)
    {
        var wrapped = Math.IEEERemainder(Finite.Required(degrees), 360);
        if (wrapped < 0) wrapped += 360;
        return new Azimuth(wrapped >= 360 ? 0 : wrapped);
    }

    /// <inheritdoc cref="FromDegrees"/>
    public static Azimuth FromRadians(double radians) => FromDegrees(double.RadiansToDegrees(radians));

    /// <summary>The direction of a vector with these east and north parts.</summary>
    public static Azimuth FromEastNorth(double east, double north) => FromRadians(Math.Atan2(east, north));

    public static Azimuth operator +(Azimuth a, Angle turn) => FromDegrees(a.Degrees + turn.Degrees);

    public static Azimuth operator -(Azimuth a, Angle turn) => FromDegrees(a.Degrees - turn.Degrees);

    /// <summary>The shorter way round to <paramref name="other"/>: clockwise positive, in (−180°, 180°].</summary>
    public Angle TurnTo(Azimuth other)
    {
        var turn = ClockwiseTo(other);
        return turn.Degrees > 180 ? turn - Angle.FromDegrees(360) : turn;
    }

    /// <summary>The way round to <paramref name="other"/> clockwise, in [0°, 360°).</summary>
    public Angle ClockwiseTo(Azimuth other) => Angle.FromDegrees(FromDegrees(other.Degrees - Degrees).Degrees);

    public override string ToString() => $"{Degrees:000.###}°";
}
