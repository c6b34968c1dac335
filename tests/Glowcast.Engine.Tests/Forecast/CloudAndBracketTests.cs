using System.Text;
using Glowcast.Engine.Capture;
using Glowcast.Engine.Forecast;
using NodaTime;

namespace Glowcast.Engine.Tests.Forecast;

/// <summary>What a plan says of moving cloud and of brackets reaches the set.</summary>
public class CloudAndBracketTests
{
    private const string Camera = """
        "camera": { "sensorWidthMm": 36, "sensorHeightMm": 24, "pixelsWide": 8256, "pixelsHigh": 5504 }, "lens": { "focalLengthMm": 135 }
        """;

    [Theory]
    [InlineData("left", CloudMotion.FromLeft)]
    [InlineData("right", CloudMotion.FromRight)]
    [InlineData("nowhere", CloudMotion.Still)]
    public void The_side_the_cloud_comes_from_is_read_and_decides_where_nothing_else_does(string word, CloudMotion motion)
    {
        var plan = Read($$"""{ "span": { "fromDeg": 250, "toDeg": 290 }, {{Camera}}, "conditions": { "cloudFrom": "{{word}}" } }""");
        Assert.Equal(motion, plan.Conditions.Cloud);
        var order = OrderChoice.For(new OrderSituation(Rows: 2, Cloud: plan.Conditions.Cloud)).Order;
        Assert.Equal(motion == CloudMotion.FromRight ? SweepDirection.RightToLeft : SweepDirection.LeftToRight, order.Direction);
    }

    [Fact]
    public void A_bracket_takes_its_exposures_at_every_frame()
    {
        var single = PlannedSet.Of(Read($$"""{ "span": { "fromDeg": 250, "toDeg": 290 }, {{Camera}}, "set": { "exposureS": 1 } }"""));
        var bracketed = PlannedSet.Of(Read($$"""{ "span": { "fromDeg": 250, "toDeg": 290 }, {{Camera}}, "set": { "exposureS": 1, "bracketShots": 3, "bracketStops": 1 } }"""));

        Assert.Equal(3 * single.Clock.Exposures.Count, bracketed.Clock.Exposures.Count);
        // Half a second and two seconds more at each frame, each written in half a second.
        var frames = single.Layout.FramesPerSet;
        Assert.Equal(Duration.FromSeconds(3.5) * frames, bracketed.Clock.SetLength - single.Clock.SetLength);
    }

    private static Plan Read(string json) => PlanReader.Read(new MemoryStream(Encoding.UTF8.GetBytes(json)), PlanNeeds.Gear);
}
