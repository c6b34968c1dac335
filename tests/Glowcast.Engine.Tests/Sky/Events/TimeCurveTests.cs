using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Tests.Sky;

public class TimeCurveTests
{
    private static readonly Instant Start = Instant.FromUtc(2026, 1, 1, 0, 0);

    private static readonly Duration HalfHour = Duration.FromMinutes(30);

    private static TimeCurve Day(Func<double, double> ofHours) =>
        new(new Interval(Start, Start + Duration.FromDays(1)), HalfHour, at => ofHours((at - Start).TotalHours));

    private static void Near(double hours, Crossing crossing) => Assert.Equal(hours * 3600, (crossing.At - Start).TotalSeconds, 0.01);

    [Fact]
    public void A_sine_is_crossed_where_arithmetic_says()
    {
        var crossings = Day(h => Math.Sin((h - 5) * Math.PI / 12)).Crossings(0.5);

        Assert.Equal([true, false], crossings.Select(c => c.Upward));
        Near(7, crossings[0]);
        Near(15, crossings[1]);
    }

    // The peak of 1 at 11:12 stands over the level for four seconds, far from any step.
    [Fact]
    public void A_peak_between_two_steps_is_not_missed()
    {
        const double halfWidth = 2 / 3600.0;
        var crossings = Day(h => 1 - ((h - 11.2) * (h - 11.2))).Crossings(1 - (halfWidth * halfWidth));

        Assert.Equal([true, false], crossings.Select(c => c.Upward));
        Near(11.2 - halfWidth, crossings[0]);
        Near(11.2 + halfWidth, crossings[1]);
    }

    [Theory]
    [InlineData(0.1)]
    [InlineData(23.9)]
    public void A_peak_in_the_first_or_last_step_is_not_missed(double peakHour) =>
        Assert.Equal(2, Day(h => -Math.Abs(h - peakHour) * Math.Abs(h - peakHour)).Crossings(-1e-4).Count);

    [Theory]
    [InlineData(-0.1)]
    [InlineData(24.1)]
    public void A_peak_outside_the_window_is_left_out(double peakHour) =>
        Assert.Empty(Day(h => -((h - peakHour) * (h - peakHour))).Crossings(-1e-4));

    [Fact]
    public void The_extremes_are_those_of_the_curve_not_of_the_steps()
    {
        var curve = Day(h => Math.Sin((h - 5.21) * Math.PI / 12));
        Assert.Equal(1, curve.Highest, 1e-9);
        Assert.Equal(-1, curve.Lowest, 1e-9);
    }

    [Fact]
    public void A_curve_that_stays_level_crosses_nothing() => Assert.Empty(Day(_ => 3).Crossings(3));

    [Fact]
    public void An_endless_or_empty_window_is_refused()
    {
        Assert.Throws<ArgumentException>(() => new TimeCurve(new Interval(Start, null), HalfHour, _ => 0));
        Assert.Throws<ArgumentException>(() => new TimeCurve(new Interval(Start, Start), HalfHour, _ => 0));
        Assert.Throws<ArgumentException>(() => new TimeCurve(new Interval(Start, Start + HalfHour), Duration.Zero, _ => 0));
    }
}
