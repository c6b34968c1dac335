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

    [Fact]
    public void The_mean_over_a_stretch_counts_every_share_by_its_time()
    {
        IReadOnlyList<Stretch> first = [new Stretch(0, 10)], second = [new Stretch(5, 20)];
        var share = ShareOverTime.Of([(first, 1), (second, 3)], 30);
        // A quarter for five seconds, all for five, three quarters for ten, nothing for ten.
        Assert.Equal(((0.25 * 5) + (1 * 5) + (0.75 * 10)) / 30, share.MeanOver(new Stretch(0, 30)), 1e-12);
        Assert.Equal(((1 * 2) + (0.75 * 3)) / 5, share.MeanOver(new Stretch(8, 13)), 1e-12);
        Assert.Equal(1, share.MeanOver(new Stretch(7, 7)));
    }

    [Fact]
    public void What_is_looked_at_in_steps_changes_where_a_straight_line_crosses()
    {
        double[] looks = [-1, 1, 3, -1, -2, 2];
        Assert.Equal([new Stretch(5, 27.5), new Stretch(45, 50)], Stretch.Above(looks.Length, 10, look => looks[look]));
        Assert.Equal([new Stretch(9, 29), new Stretch(49, 50)], Stretch.Above(looks.Length, 10, look => looks[look], look => (10 * look) - 1));
    }
}
