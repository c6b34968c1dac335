namespace Glowcast.Engine.Sky;

/// <summary>Amounts of the three CIE 1931 primaries that match a light.</summary>
internal readonly record struct Tristimulus(double X, double Y, double Z)
{
    public Chromaticity Chromaticity => new(X / (X + Y + Z), Y / (X + Y + Z));

    public static Tristimulus operator +(Tristimulus a, Tristimulus b) => new(a.X + b.X, a.Y + b.Y, a.Z + b.Z);

    public static Tristimulus operator *(double factor, Tristimulus a) => new(factor * a.X, factor * a.Y, factor * a.Z);
}
