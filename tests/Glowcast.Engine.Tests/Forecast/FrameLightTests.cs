using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Tests.Forecast;

/// <summary>What one frame asks of the light on its own bearings, in a window from 1000 to 4000 s of a morning that lasts to 6000; the valley is in shade until 4000.</summary>
public class FrameLightTests
{
    private const double LengthS = 10_000;

    private static readonly Stretch Always = new(500, 5000);
    private static readonly Stretch Later = new(4500, 5500);
    private static readonly Stretch Afternoon = new(7000, 9000);

    /// <param name="share">Of the frame's columns, from the left, that have the light named; the others have it always.</param>
    [Theory]
    [InlineData("lit like the others", 1.0, 500, 4000)]
    [InlineData("dark all day", 1.0, 0, 4000)]
    [InlineData("lit in the afternoon", 1.0, 0, 4000)]
    [InlineData("lit later that morning", 1.0, null, null)]
    [InlineData("dark all day", 0.6, 500, 4000)]
    [InlineData("lit in the afternoon", 0.6, 500, 4000)]
    [InlineData("lit later that morning", 0.4, 500, 4000)]
    [InlineData("lit later that morning", 0.6, null, null)]
    [InlineData("lit a little later", 0.3, 1500, 4000)]
    [InlineData("lit a little later", 0.05, 500, 4000)]
    public void Bearings_that_the_sun_does_not_light_that_half_of_the_day_ask_for_nothing(string what, double share, int? fromS, int? toS)
    {
        var layout = ValleyLight.Set(ValleyLight.Plan.Set).Layout;
        var (middle, halfDeg) = (layout.FrameAt(0, layout.ColumnsWithSpares / 2).Bearing, layout.Field.Horizontal.Degrees / 2);
        var bearings = Enumerable.Range(0, 200).Select(i => Azimuth.FromDegrees(245.125 + (0.25 * i))).ToList();
        var span = new SpanLight(bearings, [.. bearings.Select(Lit)], [new Stretch(0, 4000)], 0.9, LengthS) { Halves = [new Stretch(0, 6000), new Stretch(6000, LengthS)] };

        var good = new FrameLight(span, new Stretch(1000, 4000), layout).Good(layout.ColumnsWithSpares / 2);

        Assert.Equal(fromS is null ? [] : [((double)fromS, (double)toS!)], good.Select(stretch => (stretch.StartS, stretch.EndS)));

        IReadOnlyList<Stretch> Lit(Azimuth bearing)
        {
            var inFrame = (middle.TurnTo(bearing).Degrees + halfDeg) / (2 * halfDeg);
            if (inFrame < 0 || inFrame > share) return [Always];
            return what switch { "dark all day" => [], "lit in the afternoon" => [Afternoon], "lit later that morning" => [Later], "lit a little later" => [new Stretch(1500, 5000)], _ => [Always] };
        }
    }
}
