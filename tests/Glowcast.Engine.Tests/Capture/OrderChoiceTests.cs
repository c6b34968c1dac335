using Glowcast.Engine.Capture;

namespace Glowcast.Engine.Tests.Capture;

public class OrderChoiceTests
{
    public static TheoryData<OrderSituation, SweepDirection, RowOrder, int, string> Situations => new()
    {
        { new(2, LosesLightFirst: Side.Right, Cloud: CloudMotion.FromLeft), SweepDirection.RightToLeft, RowOrder.OneWay, 0, "light leaves that side first" },
        { new(2, LosesLightFirst: Side.Left, GainsLightFirst: Side.Right), SweepDirection.LeftToRight, RowOrder.OneWay, 0, "light leaves that side first" },
        { new(2, GainsLightFirst: Side.Right), SweepDirection.RightToLeft, RowOrder.OneWay, 0, "light reaches that side first" },
        { new(2, RidgeRow: 1, Cloud: CloudMotion.FromRight), SweepDirection.RightToLeft, RowOrder.OneWay, 1, "cloud comes from that side" },
        { new(3, RidgeRow: 1, Cloud: CloudMotion.Still), SweepDirection.LeftToRight, RowOrder.BackAndForth, 1, "nothing moves" },
        { new(2), SweepDirection.LeftToRight, RowOrder.OneWay, 0, "should cloud move" },
    };

    [Theory, MemberData(nameof(Situations))]
    public void The_order_follows_from_the_situation_and_says_so(
        OrderSituation situation, SweepDirection direction, RowOrder rows, int firstRow, string because)
    {
        var choice = OrderChoice.For(situation);

        Assert.Equal(new ShootingOrder(direction, rows, firstRow), choice.Order);
        Assert.Contains(choice.Reasons, reason => reason.Contains(because, StringComparison.Ordinal));
        Assert.Contains(choice.Reasons, reason => reason.Contains($"row {firstRow + 1} from the top first", StringComparison.Ordinal));
    }

    [Fact]
    public void One_row_needs_only_a_direction()
    {
        var choice = OrderChoice.For(new OrderSituation(1, LosesLightFirst: Side.Left));

        Assert.Equal(new ShootingOrder(), choice.Order);
        Assert.Equal("Begin on the left: the direct light leaves that side first.", Assert.Single(choice.Reasons));
    }
}
