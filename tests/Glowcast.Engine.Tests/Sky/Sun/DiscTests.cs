using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Tests.Sky;

public class DiscTests
{
    // Reference/sky/disc_fraction.csv: circular segment, and I = 1 − 0.6(1 − μ) integrated over it; rounded to 1e-6 and 1e-5.
    [Fact]
    public void Shares_are_those_of_the_table() => Assert.All(ReferenceData.Rows("sky/disc_fraction.csv"), row =>
    {
        var height = row.Number("centre_height_above_edge_in_semidiameters");
        Assert.Equal(row.Number("fraction_of_area_visible"), Disc.ShareOfArea(height), 6e-7);
        Assert.Equal(row.Number("fraction_of_flux_visible_limb_darkened_u0.6"), Disc.ShareOfFlux(height), 1e-5);
    });

    [Theory]
    [InlineData(-3, 0)]
    [InlineData(3, 1)]
    public void A_disc_clear_of_the_edge_is_hidden_or_whole(double height, double share)
    {
        Assert.Equal(share, Disc.ShareOfArea(height));
        Assert.Equal(share, Disc.ShareOfFlux(height), 12);
    }

    [Property]
    public Property Height_and_share_give_each_other() => Prop.ForAll(Shares, share =>
        Math.Abs(Disc.ShareOfArea(Disc.HeightForShareOfArea(share)) - share) < 1e-9);

    [Property]
    public Property What_one_edge_shows_the_other_hides() => Prop.ForAll(Shares, share =>
        Math.Abs(Disc.ShareOfFlux(share) + Disc.ShareOfFlux(-share) - 1) < 1e-12);

    [Theory]
    [InlineData(-0.01)]
    [InlineData(1.01)]
    [InlineData(double.NaN)]
    public void No_disc_shows_less_than_nothing_or_more_than_all(double share) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Disc.HeightForShareOfArea(share));

    private static Arbitrary<double> Shares => Gen.Choose(0, 1_000_000).Select(part => part / 1e6).ToArbitrary();
}
