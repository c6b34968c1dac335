using FsCheck;
using FsCheck.Fluent;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Tests.Sky;

/// <summary>Random circumstances of an observation, for properties.</summary>
internal static class Skies
{
    /// <summary>Altitudes in radians, half of them within 5° of the horizontal.</summary>
    public static Arbitrary<double> Altitudes() =>
        Gen.OneOf(Between(-5, 5), Between(-90, 90)).Select(double.DegreesToRadians).ToArbitrary();

    /// <summary>Heights in metres.</summary>
    public static Arbitrary<double> Heights() => Between(-430, 9000).ToArbitrary();

    /// <summary>Small steps in radians, from 0.002″ to 0.6°.</summary>
    public static Arbitrary<double> Steps() => Between(-8, -2).Select(power => Math.Pow(10, power)).ToArbitrary();

    /// <summary>A density from none to the densest possible as 0 to 1, or the standard.</summary>
    public static Arbitrary<double?> Airs() =>
        Gen.OneOf(Gen.Constant<double?>(null), Between(0, 1).Select(share => (double?)share)).ToArbitrary();

    public static Air AirAt(Length height, double shareOfDensest)
    {
        var standard = Air.Standard(height);
        var densest = 1.5 - (Math.Max(0, height.Metres) / 30_000);
        return standard with { PressureHPa = standard.PressureHPa * shareOfDensest * densest * 0.9999 };
    }

    private static Gen<double> Between(double from, double to) =>
        Gen.Choose(0, 1_000_000_000).Select(part => from + ((to - from) * part / 1e9));
}
