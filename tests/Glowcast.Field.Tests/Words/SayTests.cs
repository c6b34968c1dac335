using Glowcast.Field.Words;

namespace Glowcast.Field.Tests.Words;

public class SayTests
{
    [Theory]
    [InlineData(0, "0 s")]
    [InlineData(48.4, "48 s")]
    [InlineData(59.6, "1 min 00 s")]
    [InlineData(750, "12 min 30 s")]
    [InlineData(3599, "59 min 59 s")]
    [InlineData(3599.7, "1 h 00 min")]
    [InlineData(7260, "2 h 01 min")]
    [InlineData(11_100, "3 h 05 min")]
    [InlineData(90_000, "25 h 00 min")]
    [InlineData(-750, "12 min 30 s")]
    public void A_stretch_of_time_is_said_in_the_two_units_that_it_fills(double seconds, string said) => Assert.Equal(said, Say.Time(seconds));
}
