using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Tests.Sky;

public class ColourTests
{
    // Reference/sky/planckian_xy.csv: Planck's law weighted with the CIE 1931 table. Worst seen 0.00026 (at 10 000 K).
    [Fact]
    public void Planckian_radiators_have_their_colours() => Assert.All(ReferenceData.Rows("sky/planckian_xy.csv"), row =>
    {
        var colour = Chromaticity.OfPlanckian(row.Number("temperature_k"));
        Assert.Equal(row.Number("x"), colour.X, 0.0003);
        Assert.Equal(row.Number("y"), colour.Y, 0.0003);
    });

    // Worst seen 0.2 % to 8000 K, 0.5 % at 15 000 K.
    [Fact]
    public void The_nearest_radiator_of_a_Planckian_colour_is_its_own() => Assert.All(ReferenceData.Rows("sky/planckian_xy.csv"), row =>
    {
        var nearest = new Chromaticity(row.Number("x"), row.Number("y")).Correlated()!.Value;
        Assert.InRange(nearest.Kelvin / row.Number("temperature_k"), 0.9945, 1.0055);
        Assert.Equal(0, nearest.Duv, 1e-4);
    });

    // Reference/sky/cie_checks.csv: chromaticities of CIE 15 and ISO 11664-2; nearest radiators computed from the CIE 1931 table.
    [Fact]
    public void Illuminants_have_their_temperatures() => Assert.All(ReferenceData.Rows("sky/cie_checks.csv"), row =>
    {
        var nearest = new Chromaticity(row.Number("x"), row.Number("y")).Correlated()!.Value;
        Assert.InRange(nearest.Kelvin / row.Number("nearest_planckian_cct_k_c2_1.438777e-2"), 0.998, 1.002);
        Assert.Equal(row.Number("duv"), nearest.Duv, 1.5e-4);
    });

    [Property(MaxTest = 200)]
    public Property Temperature_and_colour_give_each_other() => Prop.ForAll(Gen.Choose(650, 25_000).ToArbitrary(), kelvin =>
        Math.Abs((Chromaticity.OfPlanckian(kelvin).Correlated()!.Value.Kelvin / kelvin) - 1) < 5e-4);

    [Fact]
    public void Light_redder_than_any_glow_has_no_temperature() => Assert.Null(new Chromaticity(0.734, 0.266).Correlated());

    [Theory]
    [InlineData(0)]
    [InlineData(double.NaN)]
    public void Temperatures_no_light_has_are_refused(double kelvin) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Chromaticity.OfPlanckian(kelvin));
}
