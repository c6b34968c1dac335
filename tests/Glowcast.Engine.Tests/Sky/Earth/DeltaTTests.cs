using Glowcast.Engine.Sky;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Engine.Tests.Sky;

public class DeltaTTests
{
    // The delta_t_s columns: Skyfield 1.45's table of measurements (to 2022) and its own forecast.
    private static readonly (Instant Utc, double Seconds)[] Rows =
    [
        .. from file in new[] { "sky/solar_position.csv", "sky/moon_position.csv" }
           from row in ReferenceData.Rows(file)
           select (InstantPattern.General.Parse(row["utc"]).Value, row.Number("delta_t_s")),
    ];

    // Before atomic clocks the reference is a smoothed curve through observations of the Moon, ours their yearly values.
    [Theory]
    [InlineData(1950, 1973, 0.7)]
    [InlineData(1973, 2023, 0.1)]
    public void Measured_years_are_right(int firstYear, int endYear, double toleranceS) =>
        Assert.InRange(WorstBetween(firstYear, endYear), 0, toleranceS);

    // Nobody knows ΔT of 2100 to better than several seconds; the two forecasts differ by less, 6e-5° of the sun's path.
    [Fact]
    public void The_forecast_stays_near_an_independent_one() => Assert.InRange(WorstBetween(2023, 2102), 0, 6);

    [Fact]
    public void No_day_jumps_from_1750_on()
    {
        var day = Duration.FromDays(1);
        for (var at = Instant.FromUtc(1750, 1, 1, 0, 0); at < Instant.FromUtc(2200, 1, 1, 0, 0); at += day)
            Assert.InRange(Math.Abs(DeltaT.SecondsAt(at + day) - DeltaT.SecondsAt(at)), 0, 0.1);
    }

    // Espenak & Meeus, NASA/TP-2006-214141, table 1: values from the historical record.
    [Theory]
    [InlineData(-500, 17190)]
    [InlineData(0, 10580)]
    [InlineData(1000, 1570)]
    [InlineData(1600, 120)]
    [InlineData(1750, 13)]
    [InlineData(1900, -3)]
    public void The_historical_record_is_followed(int year, double seconds) =>
        Assert.Equal(seconds, DeltaT.SecondsAt(Instant.FromUtc(year, 1, 1, 0, 0)), Math.Max(1, seconds * 0.003));

    private static double WorstBetween(int firstYear, int endYear) => Rows
        .Where(row => row.Utc.InUtc().Year >= firstYear && row.Utc.InUtc().Year < endYear)
        .Max(row => Math.Abs(row.Seconds - DeltaT.SecondsAt(row.Utc)));
}
