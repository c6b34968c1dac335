using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Tests.Sky;

/// <summary>The moon's beam against the same published formula reckoned elsewhere (Reference/picture, E).</summary>
public class MoonBeamTests
{
    // Haze with which our air takes away what the coefficients of the table take: 0.172 mag an air mass on a high site, 0.28 in clear lowland.
    private static readonly (string Column, double Beta)[] Airs = [("normal_lx_k0.172", 0.014), ("normal_lx_k0.28", 0.06)];

    [Fact]
    public void Outside_the_air_it_is_the_formula()
    {
        foreach (var row in ReferenceData.Rows("picture/moonlight.csv"))
        {
            var lux = MoonBeam.OutsideLux(Phase(row), Length.FromKilometres(row.Number("distance_km")));
            Assert.InRange(lux / row.Number("normal_lx_outside_air"), 0.995, 1.005);
        }
    }

    [Fact]
    public void Through_the_air_it_loses_what_an_even_coefficient_takes()
    {
        foreach (var row in ReferenceData.Rows("picture/moonlight.csv").Where(row => row.Number("apparent_altitude_deg") >= 10))
        {
            foreach (var (column, beta) in Airs)
            {
                var beam = MoonBeam.At(
                    Angle.FromDegrees(row.Number("apparent_altitude_deg")), Length.Zero, Phase(row), Length.FromKilometres(row.Number("distance_km")), new Haze(beta));
                Assert.Equal(0, Math.Log2(beam.NormalIlluminanceLux / row.Number(column)), 0.2);
            }
        }
    }

    // Circular 171 is total light: at 5° it holds 0.9 to 2.8 stops more than the beam on level ground, and from 20° up 0.6 at most.
    [Fact]
    public void Low_down_total_moonlight_is_far_more_than_the_beam()
    {
        Assert.InRange(Excess(5), 0.9, 2.9);
        Assert.InRange(Excess(30), -0.3, 0.6);

        static double Excess(double altitudeDeg)
        {
            var (altitude, distance) = (Angle.FromDegrees(altitudeDeg), Length.FromKilometres(384_400));
            var beam = MoonBeam.At(altitude, Length.Zero, Angle.FromDegrees(15), distance, new Haze(0.06)).NormalIlluminanceLux * altitude.Sin();
            return Math.Log2(MoonLight.HorizontalLux(altitude, Angle.FromDegrees(15), distance) / beam);
        }
    }

    private static Angle Phase(ReferenceRow row) => Angle.FromDegrees(row.Number("phase_angle_deg"));
}
