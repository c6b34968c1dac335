using System.Runtime.Intrinsics;

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

/// <summary>The sums of the terms of nutation, four at a time (see <see cref="PeriodicSeries"/>).</summary>
internal sealed class NutationSeries(NutationTerm[] terms)
{
    private readonly Vector256<double>[] d = PeriodicSeries.ByFours(terms, term => (double)term.D);

    private readonly Vector256<double>[] m = PeriodicSeries.ByFours(terms, term => (double)term.M);

    private readonly Vector256<double>[] n = PeriodicSeries.ByFours(terms, term => (double)term.N);

    private readonly Vector256<double>[] f = PeriodicSeries.ByFours(terms, term => (double)term.F);

    private readonly Vector256<double>[] node = PeriodicSeries.ByFours(terms, term => (double)term.Node);

    private readonly Vector256<double>[] psi = PeriodicSeries.ByFours(terms, term => term.Psi);

    private readonly Vector256<double>[] psiRate = PeriodicSeries.ByFours(terms, term => term.PsiRate);

    private readonly Vector256<double>[] epsilon = PeriodicSeries.ByFours(terms, term => term.Epsilon);

    private readonly Vector256<double>[] epsilonRate = PeriodicSeries.ByFours(terms, term => term.EpsilonRate);

    /// <summary>Nutation in longitude and in obliquity, in 1e-4 arcseconds, for the five arguments in radians.</summary>
    public (double Longitude, double Obliquity) At(
        double moonElongation, double sunAnomaly, double moonAnomaly, double moonLatitudeArgument, double moonNode, double centuries)
    {
        var (longitude, obliquity) = (Vector256<double>.Zero, Vector256<double>.Zero);
        for (var i = 0; i < d.Length; i++)
        {
            var (sin, cos) = Vector256.SinCos((d[i] * moonElongation) + (m[i] * sunAnomaly) + (n[i] * moonAnomaly)
                + (f[i] * moonLatitudeArgument) + (node[i] * moonNode));
            longitude += (psi[i] + (psiRate[i] * centuries)) * sin;
            obliquity += (epsilon[i] + (epsilonRate[i] * centuries)) * cos;
        }
        return (Vector256.Sum(longitude), Vector256.Sum(obliquity));
    }
}
