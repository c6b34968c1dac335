using Glowcast.Engine.Light;

namespace Glowcast.Engine.Tests.Light;

public class ShareOverTimeTests
{
    private static readonly ShareOverTime Share = ShareOverTime.Of(
        [([new Stretch(10, 50)], 3), ([new Stretch(0, 20), new Stretch(40, 100)], 1), ([], 1)], 100);

    [Theory]
    [InlineData(0, 0.2)]
    [InlineData(9.9, 0.2)]
    [InlineData(10, 0.8)]
    [InlineData(20, 0.6)]
    [InlineData(45, 0.8)]
    [InlineData(50, 0.2)]
    [InlineData(99, 0.2)]
    public void Weights_add_up_from_each_start_until_each_end(double seconds, double share) => Assert.Equal(share, Share.At(seconds), 12);

    [Fact]
    public void Stretches_at_least_and_at_most_a_share_fill_the_day_between_them()
    {
        Assert.Equal([new Stretch(10, 20), new Stretch(40, 50)], Share.AtLeast(0.8));
        Assert.Equal([new Stretch(0, 10), new Stretch(50, 100)], Share.AtMost(0.2));
        Assert.Equal([new Stretch(0, 100)], Share.AtMost(1));
        Assert.Empty(Share.AtLeast(0.81));
    }

    [Fact]
    public void What_two_lists_have_in_common_starts_with_the_later_and_ends_with_the_earlier() => Assert.Equal(
        [new Stretch(5, 10), new Stretch(20, 25), new Stretch(30, 32)],
        Stretch.Common([new(0, 10), new(20, 40)], [new(5, 15), new(18, 25), new(30, 32)]));

    [Fact]
    public void Nobody_is_never_lit()
    {
        var nobody = ShareOverTime.Of([], 100);
        Assert.Equal(0, nobody.At(50));
        Assert.Empty(nobody.AtLeast(0.5));
        Assert.Equal([new Stretch(0, 100)], nobody.AtMost(0.2));
    }
}
