namespace Glowcast.Engine.Measures;

/// <summary>A distance or a height; metres inside.</summary>
/// <remarks>Always finite; heights may be negative. The default value is zero.</remarks>
public readonly record struct Length : IComparable<Length>
{
    private Length(double metres) => Metres = metres;

    public double Metres { get; }

    public double Kilometres => Metres / 1000;

    public double Millimetres => Metres * 1000;

    public static Length Zero => default;

    /// <exception cref="ArgumentOutOfRangeException">The value is NaN or infinite.</exception>
    public static Length FromMetres(double metres) => new(Finite.Required(metres));

    /// <inheritdoc cref="FromMetres"/>
    public static Length FromKilometres(double kilometres) => new(Finite.Required(kilometres) * 1000);

    /// <inheritdoc cref="FromMetres"/>
    public static Length FromMillimetres(double millimetres) => new(Finite.Required(millimetres) / 1000);

    public static Length operator +(Length a, Length b) => new(a.Metres + b.Metres);

    public static Length operator -(Length a, Length b) => new(a.Metres - b.Metres);

    public static Length operator *(Length a, double factor) => new(a.Metres * factor);

    /// <summary>How many times <paramref name="b"/> fits into <paramref name="a"/>; a ratio has no unit.</summary>
    public static double operator /(Length a, Length b) => a.Metres / b.Metres;

    public static bool operator <(Length a, Length b) => a.Metres < b.Metres;

    public static bool operator >(Length a, Length b) => a.Metres > b.Metres;

    public static bool operator <=(Length a, Length b) => a.Metres <= b.Metres;

    public static bool operator >=(Length a, Length b) => a.Metres >= b.Metres;

    public int CompareTo(Length other) => Metres.CompareTo(other.Metres);

    public override string ToString() => $"{Metres:0.###} m";
}
