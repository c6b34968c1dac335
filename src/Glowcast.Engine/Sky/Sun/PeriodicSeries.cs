using System.Runtime.Intrinsics;

namespace Glowcast.Engine.Sky;

/// <summary>One term of a series: amplitude × cos(phase + frequency × t), phase in radians, t in Julian millennia.</summary>
internal readonly record struct PeriodicTerm(double Amplitude, double Phase, double Frequency);

/// <summary>A sum of periodic terms. Four are taken at a time: the position of the sun is asked for millions of times, and
/// nearly all of its cost is these cosines.</summary>
internal sealed class PeriodicSeries(PeriodicTerm[] terms)
{
    private readonly Vector256<double>[] amplitudes = ByFours(terms, term => term.Amplitude);

    private readonly Vector256<double>[] phases = ByFours(terms, term => term.Phase);

    private readonly Vector256<double>[] frequencies = ByFours(terms, term => term.Frequency);

    public double At(double t)
    {
        var time = Vector256.Create(t);
        var sum = Vector256<double>.Zero;
        for (var i = 0; i < amplitudes.Length; i++) sum += amplitudes[i] * Vector256.Cos(phases[i] + (frequencies[i] * time));
        return Vector256.Sum(sum);
    }

    /// <summary>The value of a polynomial in t whose coefficients are series.</summary>
    public static double Polynomial(PeriodicSeries[] byPower, double t)
    {
        var value = 0.0;
        for (var power = byPower.Length - 1; power >= 0; power--) value = (value * t) + byPower[power].At(t);
        return value;
    }

    /// <summary>One part of every term, the last four filled up with zeros.</summary>
    internal static Vector256<double>[] ByFours<T>(T[] terms, Func<T, double> part) =>
    [
        .. terms.Select(part).Chunk(4).Select(four =>
            Vector256.Create(four[0], four.ElementAtOrDefault(1), four.ElementAtOrDefault(2), four.ElementAtOrDefault(3))),
    ];
}
