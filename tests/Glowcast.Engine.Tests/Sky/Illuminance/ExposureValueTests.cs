using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Tests.Sky;

public class ExposureValueTests
{
    // ISO 2720:1974 with K = 12.5 and C = 250, at ISO 100.
    [Theory]
    [InlineData(0.125, 0)]
    [InlineData(4096, 15)]
    [InlineData(8192, 16)]
    [InlineData(10_000, 16.28771237954945)]
    public void Luminance_gives_the_exposure(double luminance, double value) =>
        Assert.Equal(value, ExposureValue.OfLuminance(luminance), 12);

    [Theory]
    [InlineData(2.5, 0)]
    [InlineData(10, 2)]
    [InlineData(400, 7.321928094887363)]
    [InlineData(81_920, 15)]
    [InlineData(128_000, 15.643856189774725)]
    public void Illuminance_gives_the_exposure(double lux, double value) =>
        Assert.Equal(value, ExposureValue.OfIlluminance(lux), 12);

    [Theory]
    [InlineData(1, 1, 0)]
    [InlineData(16, 0.008, 14.965784284662087)]
    [InlineData(5.6, 2, 3.9708536543404835)]
    public void A_setting_has_its_value(double aperture, double exposureS, double value)
    {
        Assert.Equal(value, ExposureValue.OfSetting(aperture, exposureS), 12);
        Assert.Equal(exposureS, ExposureValue.ExposureS(value, aperture), 12);
    }

    [Fact]
    public void Twice_the_sensitivity_is_one_more() =>
        Assert.Equal(1, ExposureValue.OfIlluminance(500, iso: 200) - ExposureValue.OfIlluminance(500), 12);
}
