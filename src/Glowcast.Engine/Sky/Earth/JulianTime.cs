using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Sky;

/// <summary>An instant on the two clocks of astronomy, counted from J2000.0 (2000-01-01 12:00): universal time turns the
/// Earth, terrestrial time moves the planets, and ΔT is what the second is ahead of the first.</summary>
/// <remarks>UTC is taken as UT1. The two stay within 0.9 s of one another, which is 0.004° of the Earth's turn and the
/// limit of every azimuth, altitude and time computed from here.</remarks>
/// <param name="UniversalDays">Days of universal time (UT1) since J2000.0.</param>
/// <param name="DeltaTSeconds">Terrestrial minus universal time, in seconds.</param>
internal readonly record struct JulianTime(double UniversalDays, double DeltaTSeconds)
{
    /// <summary>The Julian day of J2000.0.</summary>
    public const double J2000 = 2451545;

    private const double DaysPerCentury = 36525;

    private static readonly Instant Origin = Instant.FromUtc(2000, 1, 1, 12, 0);

    public double TerrestrialDays => UniversalDays + (DeltaTSeconds / 86400);

    public double JulianDay => J2000 + UniversalDays;

    public double JulianEphemerisDay => J2000 + TerrestrialDays;

    public double UniversalCenturies => UniversalDays / DaysPerCentury;

    public double TerrestrialCenturies => TerrestrialDays / DaysPerCentury;

    public double TerrestrialMillennia => TerrestrialCenturies / 10;

    /// <param name="deltaTSeconds">ΔT to use; without it, <see cref="DeltaT"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">ΔT is NaN or infinite.</exception>
    public static JulianTime At(Instant utc, double? deltaTSeconds = null) =>
        new((utc - Origin).TotalDays, Finite.Required(deltaTSeconds ?? DeltaT.SecondsAt(utc), nameof(deltaTSeconds)));
}
