using System.Globalization;
using Glowcast.Engine.Measures;
using Glowcast.Field.Magnetism;
using NodaTime;

namespace Glowcast.Field.Tests.Magnetism;

public class WorldMagneticModelTests
{
    // Angles are published to 0.01°. Of the components, worst seen 0.0004 nT: the ellipsoid of the published program is rounded to 0.1 mm.
    private const double ToleranceNt = 1e-3;
    private const double ToleranceDeg = 0.0051;

    private static readonly Place Geneva = Place.FromDegrees(46.2, 6.15, 400);

    [Fact]
    public void It_has_the_published_field_at_a_hundred_places_and_times()
    {
        var rows = PublishedValues().ToList();
        Assert.Equal(100, rows.Count);
        Assert.All(rows, row =>
        {
            var field = WorldMagneticModel.At(Place.FromDegrees(row["lat"], row["lon"], 1000 * row["alt"]), row["date"]);
            Assert.Equal(row["x"], field.NorthNt, ToleranceNt);
            Assert.Equal(row["y"], field.EastNt, ToleranceNt);
            Assert.Equal(row["z"], field.DownNt, ToleranceNt);
            Assert.Equal(row["h"], field.HorizontalNt, ToleranceNt);
            Assert.Equal(row["incl"], field.Inclination.Degrees, ToleranceDeg);
            Assert.Equal(row["decl"], field.Declination.Degrees, ToleranceDeg);
        });
    }

    [Fact]
    public void A_date_is_the_share_of_its_year_that_is_over()
    {
        var (half, day) = (WorldMagneticModel.At(Geneva, 2026 + (181.0 / 365)), WorldMagneticModel.At(Geneva, new LocalDate(2026, 7, 1)));
        Assert.Equal(half, day);
    }

    [Theory]
    [InlineData(2024, 12, 31)]
    [InlineData(2030, 1, 1)]
    public void Outside_its_years_it_is_refused_with_what_to_do(int year, int month, int day)
    {
        var bad = Assert.Throws<BadInputException>(() => WorldMagneticModel.At(Geneva, new LocalDate(year, month, day)));
        Assert.Contains("until 2030-01-01", bad.Message, StringComparison.Ordinal);
        Assert.Contains("by hand", bad.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_declination_is_surer_where_the_field_lies_flat()
    {
        // Error model of WMM2025: 0.26° alone on a strong horizontal field; here √(0.26² + (5417/22000)²) = 0.358.
        Assert.Equal(0.358, new MagneticField(22_000, 0, 40_000).DeclinationUncertainty.Degrees, 0.001);
        var pole = WorldMagneticModel.At(Place.FromDegrees(86, 139), new LocalDate(2026, 1, 1));
        Assert.Equal(CompassUse.Useless, pole.Compass);
        Assert.True(pole.DeclinationUncertainty > Angle.FromDegrees(5));
    }

    [Fact]
    public void A_compass_reads_less_where_magnetic_north_lies_east()
    {
        var east = Declination.ByHand(Angle.FromDegrees(12.5), new LocalDate(2026, 1, 1));
        Assert.Equal(357.5, east.Magnetic(Azimuth.FromDegrees(10)).Degrees, 1e-9);
        Assert.True(east.IsByHand);
    }

    private static IEnumerable<Dictionary<string, double>> PublishedValues()
    {
        var lines = File.ReadLines(Path.Combine(AppContext.BaseDirectory, "Reference", "wmm2025-test-values.csv")).Where(line => line[0] != '#').ToList();
        var names = lines[0].Split(',');
        return lines.Skip(1).Select(line => line.Split(',').Zip(names).ToDictionary(pair => pair.Second, pair => double.Parse(pair.First, CultureInfo.InvariantCulture)));
    }
}
