namespace Glowcast.Engine.Sky;

/// <summary>One term of nutation: whole multiples of the five fundamental arguments, and its coefficients in 1e-4 arcseconds
/// with their change per Julian century.</summary>
/// <param name="D">Of the mean elongation of the Moon from the Sun.</param>
/// <param name="M">Of the mean anomaly of the Sun.</param>
/// <param name="N">Of the mean anomaly of the Moon.</param>
/// <param name="F">Of the Moon's argument of latitude.</param>
/// <param name="Node">Of the longitude of the Moon's ascending node.</param>
/// <param name="Psi">Sine coefficient of the nutation in longitude.</param>
/// <param name="Epsilon">Cosine coefficient of the nutation in obliquity.</param>
internal readonly record struct NutationTerm(
    int D, int M, int N, int F, int Node, double Psi, double PsiRate, double Epsilon, double EpsilonRate);

/// <summary>The 63 largest terms of the IAU 1980 theory of nutation: the figures of Table A4.3 of Reda &amp; Andreas (2004,
/// rev. 2008), NREL/TP-560-34302.</summary>
internal static class NutationTables
{
    public static readonly NutationTerm[] Terms =
    [
        new(0, 0, 0, 0, 1, -171996, -174.2, 92025, 8.9),
        new(-2, 0, 0, 2, 2, -13187, -1.6, 5736, -3.1),
        new(0, 0, 0, 2, 2, -2274, -0.2, 977, -0.5),
        new(0, 0, 0, 0, 2, 2062, 0.2, -895, 0.5),
        new(0, 1, 0, 0, 0, 1426, -3.4, 54, -0.1),
        new(0, 0, 1, 0, 0, 712, 0.1, -7, 0),
        new(-2, 1, 0, 2, 2, -517, 1.2, 224, -0.6),
        new(0, 0, 0, 2, 1, -386, -0.4, 200, 0),
        new(0, 0, 1, 2, 2, -301, 0, 129, -0.1),
        new(-2, -1, 0, 2, 2, 217, -0.5, -95, 0.3),
        new(-2, 0, 1, 0, 0, -158, 0, 0, 0),
        new(-2, 0, 0, 2, 1, 129, 0.1, -70, 0),
        new(0, 0, -1, 2, 2, 123, 0, -53, 0),
        new(2, 0, 0, 0, 0, 63, 0, 0, 0),
        new(0, 0, 1, 0, 1, 63, 0.1, -33, 0),
        new(2, 0, -1, 2, 2, -59, 0, 26, 0),
        new(0, 0, -1, 0, 1, -58, -0.1, 32, 0),
        new(0, 0, 1, 2, 1, -51, 0, 27, 0),
        new(-2, 0, 2, 0, 0, 48, 0, 0, 0),
        new(0, 0, -2, 2, 1, 46, 0, -24, 0),
        new(2, 0, 0, 2, 2, -38, 0, 16, 0),
        new(0, 0, 2, 2, 2, -31, 0, 13, 0),
        new(0, 0, 2, 0, 0, 29, 0, 0, 0),
        new(-2, 0, 1, 2, 2, 29, 0, -12, 0),
        new(0, 0, 0, 2, 0, 26, 0, 0, 0),
        new(-2, 0, 0, 2, 0, -22, 0, 0, 0),
        new(0, 0, -1, 2, 1, 21, 0, -10, 0),
        new(0, 2, 0, 0, 0, 17, -0.1, 0, 0),
        new(2, 0, -1, 0, 1, 16, 0, -8, 0),
        new(-2, 2, 0, 2, 2, -16, 0.1, 7, 0),
        new(0, 1, 0, 0, 1, -15, 0, 9, 0),
        new(-2, 0, 1, 0, 1, -13, 0, 7, 0),
        new(0, -1, 0, 0, 1, -12, 0, 6, 0),
        new(0, 0, 2, -2, 0, 11, 0, 0, 0),
        new(2, 0, -1, 2, 1, -10, 0, 5, 0),
        new(2, 0, 1, 2, 2, -8, 0, 3, 0),
        new(0, 1, 0, 2, 2, 7, 0, -3, 0),
        new(-2, 1, 1, 0, 0, -7, 0, 0, 0),
        new(0, -1, 0, 2, 2, -7, 0, 3, 0),
        new(2, 0, 0, 2, 1, -7, 0, 3, 0),
        new(2, 0, 1, 0, 0, 6, 0, 0, 0),
        new(-2, 0, 2, 2, 2, 6, 0, -3, 0),
        new(-2, 0, 1, 2, 1, 6, 0, -3, 0),
        new(2, 0, -2, 0, 1, -6, 0, 3, 0),
        new(2, 0, 0, 0, 1, -6, 0, 3, 0),
        new(0, -1, 1, 0, 0, 5, 0, 0, 0),
        new(-2, -1, 0, 2, 1, -5, 0, 3, 0),
        new(-2, 0, 0, 0, 1, -5, 0, 3, 0),
        new(0, 0, 2, 2, 1, -5, 0, 3, 0),
        new(-2, 0, 2, 0, 1, 4, 0, 0, 0),
        new(-2, 1, 0, 2, 1, 4, 0, 0, 0),
        new(0, 0, 1, -2, 0, 4, 0, 0, 0),
        new(-1, 0, 1, 0, 0, -4, 0, 0, 0),
        new(-2, 1, 0, 0, 0, -4, 0, 0, 0),
        new(1, 0, 0, 0, 0, -4, 0, 0, 0),
        new(0, 0, 1, 2, 0, 3, 0, 0, 0),
        new(0, 0, -2, 2, 2, -3, 0, 0, 0),
        new(-1, -1, 1, 0, 0, -3, 0, 0, 0),
        new(0, 1, 1, 0, 0, -3, 0, 0, 0),
        new(0, -1, 1, 2, 2, -3, 0, 0, 0),
        new(2, -1, -1, 2, 2, -3, 0, 0, 0),
        new(0, 0, 3, 2, 2, -3, 0, 0, 0),
        new(2, -1, 0, 2, 2, -3, 0, 0, 0),
    ];
}
