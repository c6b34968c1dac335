namespace Glowcast.Engine.Measures;

/// <summary>A plane angle; the unit is chosen when you make one and when you read one, never in between.</summary>
/// <remarks>Always finite. The default value is zero.</remarks>
public readonly record struct Angle : IComparable<Angle>
{
    private const double ArcsecondsPerDegree = 3600;

    private Angle(double radians) => Radians = radians;

    public double Radians { get; }

    public double Degrees => double.RadiansToDegrees(Radians);

    public double Arcminutes => Degrees * 60;

    public double Arcseconds => Degrees * ArcsecondsPerDegree;

    public static Angle Zero => default;

    /// <exception cref="ArgumentOutOfRangeException">The value is NaN or infinite.</exception>
    public static Angle FromRadians(double radians) => new(Finite.Required(radians));

    /// <inheritdoc cref="FromRadians"/>
    public static Angle FromDegrees(double degrees) => new(double.DegreesToRadians(Finite.Required(degrees)));

    /// <inheritdoc cref="FromRadians"/>
    public static Angle FromArcminutes(double arcminutes) => FromDegrees(arcminutes / 60);

    /// <inheritdoc cref="FromRadians"/>
    public static Angle FromArcseconds(double arcseconds) => FromDegrees(arcseconds / ArcsecondsPerDegree);

    public static Angle operator +(Angle a, Angle b) => new(a.Radians + b.Radians);

    public static Angle operator -(Angle a, Angle b) => new(a.Radians - b.Radians);

    public static Angle operator -(Angle a) => new(-a.Radians);

    public static Angle operator *(Angle a, double factor) => new(a.Radians * factor);

    public static Angle operator *(double factor, Angle a) => a * factor;

    public static Angle operator /(Angle a, double divisor) => new(a.Radians / divisor);

    /// <summary>How many times <paramref name="b"/> fits into <paramref name="a"/>; a ratio has no unit.</summary>
    public static double operator /(Angle a, Angle b) => a.Radians / b.Radians;

    public static bool operator <(Angle a, Angle b) => a.Radians < b.Radians;

    public static bool operator >(Angle a, Angle b) => a.Radians > b.Radians;

    public static bool operator <=(Angle a, Angle b) => a.Radians <= b.Radians;

    public static bool operator >=(Angle a, Angle b) => a.Radians >= b.Radians;

    public static Angle Max(Angle a, Angle b) => a >= b ? a : b;

    public static Angle Min(Angle a, Angle b) => a <= b ? a : b;

    public Angle Abs() => new(Math.Abs(Radians));

    public double Sin() => Math.Sin(Radians);

    public double Cos() => Math.Cos(Radians);

    public double Tan() => Math.Tan(Radians);

    public int CompareTo(Angle other) => Radians.CompareTo(other.Radians);

    public override string ToString() => $"{Degrees:0.#####}°";
}
