using MathNet.Numerics;
using NodaTime;

namespace Glowcast.Engine.Sky;

/// <summary>ΔT, terrestrial minus universal time: how far the Earth's turning has fallen behind an even clock.</summary>
/// <remarks>Measured for 1950–2025, so good to 0.1 s there. Before, the polynomials of Espenak &amp; Meeus. After, a forecast:
/// ten seconds more or less in 2100 are possible, which moves the sun by 0.0001°.</remarks>
public static class DeltaT
{
    private const double FirstMeasuredYear = 1950;

    // The Earth's long-term braking: ΔT grows by 32 s × (centuries)² (Morrison & Stephenson 2004, the parabola that
    // Espenak & Meeus use outside their polynomials). Since 2020 ΔT has stood still, so the forecast starts level.
    private const double BrakingSecondsPerSquareYear = 32e-4;

    private static readonly Instant Year2000 = Instant.FromUtc(2000, 1, 1, 0, 0);

    /// <summary>ΔT in seconds at an instant; continuous to 0.1 s from 1750 on, to 0.3 s before.</summary>
    public static double SecondsAt(Instant utc) => SecondsInYear(2000 + ((utc - Year2000).TotalDays / 365.25));

    private static double SecondsInYear(double year)
    {
        var yearsMeasured = year - FirstMeasuredYear;
        if (yearsMeasured < 0) return BeforeMeasurement(year);
        if (yearsMeasured >= Measured.Length - 1) return AfterMeasurement(yearsMeasured - (Measured.Length - 1));
        var before = (int)yearsMeasured;
        return Measured[before] + ((yearsMeasured - before) * (Measured[before + 1] - Measured[before]));
    }

    private static double BeforeMeasurement(double year)
    {
        foreach (var piece in Pieces)
        {
            if (year < piece.Before) return Polynomial.Evaluate((year - piece.Origin) / piece.YearsPerUnit, piece.Coefficients);
        }
        throw new ArgumentOutOfRangeException(nameof(year), year, "Measured from here on.");
    }

    private static double AfterMeasurement(double years) => Measured[^1] + (BrakingSecondsPerSquareYear * years * years);

    /// <param name="Before">The year in which the next piece takes over.</param>
    private sealed record Piece(double Before, double Origin, double YearsPerUnit, double[] Coefficients);

    // Espenak & Meeus, Five Millennium Canon of Solar Eclipses, NASA/TP-2006-214141, section 2.4.
    private static readonly Piece[] Pieces =
    [
        new(-500, 1820, 100, [-20, 0, 32]),
        new(500, 0, 100, [10583.6, -1014.41, 33.78311, -5.952053, -0.1798452, 0.022174192, 0.0090316521]),
        new(1600, 1000, 100, [1574.2, -556.01, 71.23472, 0.319781, -0.8503463, -0.005050998, 0.0083572073]),
        new(1700, 1600, 1, [120, -0.9808, -0.01532, 1 / 7129.0]),
        new(1800, 1700, 1, [8.83, 0.1603, -0.0059285, 0.00013336, -1 / 1174000.0]),
        new(1860, 1800, 1,
            [13.72, -0.332447, 0.0068612, 0.0041116, -0.00037436, 0.0000121272, -0.0000001699, 0.000000000875]),
        new(1900, 1860, 1, [7.62, 0.5737, -0.251754, 0.01680668, -0.0004473624, 1 / 233174.0]),
        new(1920, 1900, 1, [-2.79, 1.494119, -0.0598939, 0.0061966, -0.000197]),
        new(1941, 1920, 1, [21.20, 0.84493, -0.076100, 0.0020936]),
        new(FirstMeasuredYear, 1950, 1, [29.07, 0.407, -1 / 233.0, 1 / 2547.0]),
    ];

    // 1 January of each year from 1950: US Naval Observatory, historic and monthly determinations (to 2023); then from the
    // IERS Earth orientation series, 32.184 s + 37 s − (UT1 − UTC).
    private static readonly double[] Measured =
    [
        29.15, 29.57, 29.97, 30.36, 30.72, 31.07, 31.35, 31.68, 32.17, 32.67, // 1950
        33.15, 33.58, 33.99, 34.47, 35.03, 35.74, 36.55, 37.43, 38.29, 39.20, // 1960
        40.18, 41.17, 42.23, 43.37, 44.48, 45.48, 46.46, 47.52, 48.53, 49.59, // 1970
        50.54, 51.38, 52.17, 52.96, 53.79, 54.34, 54.87, 55.32, 55.82, 56.30, // 1980
        56.86, 57.57, 58.31, 59.12, 59.98, 60.79, 61.63, 62.30, 62.97, 63.47, // 1990
        63.83, 64.09, 64.30, 64.47, 64.57, 64.69, 64.85, 65.15, 65.46, 65.78, // 2000
        66.07, 66.32, 66.60, 66.91, 67.28, 67.64, 68.10, 68.59, 68.97, 69.22, // 2010
        69.36, 69.36, 69.29, 69.20, 69.18, 69.14, // 2020
    ];
}
