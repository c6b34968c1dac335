using Glowcast.Engine.Capture;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Tests.Forecast;

/// <summary>From which side a set is swept, by how the light comes over the ridge and leaves it.</summary>
public class SetOrderTests
{
    // Seconds: when the leftmost and the rightmost bearing are lit and go dark, evenly between; and until when the valley is in shade.
    [Theory]
    [InlineData("light comes from the left", 600, 1200, 8000, 8000, 5000, SweepDirection.LeftToRight, "the direct light reaches that side first")]
    [InlineData("light comes from the right", 1200, 600, 8000, 8000, 5000, SweepDirection.RightToLeft, "the direct light reaches that side first")]
    [InlineData("it comes everywhere at once", 600, 600, 8000, 8000, 5000, SweepDirection.LeftToRight, "neither light nor cloud favours a side")]
    [InlineData("it leaves from the right, and that ends the window", 600, 600, 5000, 4000, 9000, SweepDirection.RightToLeft, "the direct light leaves that side first")]
    [InlineData("it leaves from the right, but the valley is lit before", 600, 600, 5000, 4000, 3000, SweepDirection.LeftToRight, "neither light nor cloud favours a side")]
    public void The_side_that_the_light_changes_first_comes_first(
        string situation, double leftS, double rightS, double leftEndS, double rightEndS, double valleyS, SweepDirection direction, string why)
    {
        var span = Span(leftS, rightS, leftEndS, rightEndS, valleyS);
        var ridge = Assert.Single(span.RidgeLit());
        var window = new Stretch(ridge.StartS, Math.Min(ridge.EndS, valleyS));

        // A window's ends go through instants of whole nanoseconds and back.
        foreach (var rounding in (double[])[0, 3e-8, -3e-8])
        {
            var set = SetOrder.For(ValleyLight.Plan, span, [new Stretch(window.StartS + rounding, window.EndS + rounding)], ValleyLight.Crest);
            Assert.True((direction == SweepDirection.LeftToRight) == (set.Clock.Exposures[0].Column < set.Clock.Exposures[1].Column), $"{situation}: from column {set.Clock.Exposures[0].Column}");
            Assert.Contains(set.OrderReasons, reason => reason.Contains(why, StringComparison.Ordinal));
        }
    }

    private static SpanLight Span(double leftS, double rightS, double leftEndS, double rightEndS, double valleyS)
    {
        const int columns = 200;
        double Between(double left, double right, int column) => left + ((right - left) * column / (columns - 1));
        return new SpanLight(
            [.. Enumerable.Range(0, columns).Select(column => Azimuth.FromDegrees(245.125 + (0.25 * column)))],
            [.. Enumerable.Range(0, columns).Select(column => (IReadOnlyList<Stretch>)[new Stretch(Between(leftS, rightS, column), Between(leftEndS, rightEndS, column))])],
            [new Stretch(0, valleyS)], 0.9, 10_000);
    }
}
