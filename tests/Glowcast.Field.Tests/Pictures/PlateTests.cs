using System.Xml.Linq;
using Glowcast.Field.Pictures;
using SkiaSharp;

namespace Glowcast.Field.Tests.Pictures;

public class PlateTests
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    [Fact]
    public void The_drawing_numbers_the_frames_of_a_set_in_the_order_they_are_shot_and_needs_nothing_else()
    {
        var svg = XElement.Parse(new Plate(Forecasts.ThatFits).Svg());
        var texts = svg.Descendants(Svg + "text").Select(text => text.Value).ToList();
        Assert.All(Enumerable.Range(1, Forecasts.ThatFits.Set!.Layout.FramesPerSet), number => Assert.Contains($"{number}", texts));
        Assert.Contains(texts, text => text.Contains("the sun reaches the valley", StringComparison.Ordinal));
        Assert.All(svg.DescendantsAndSelf().Attributes().Where(attribute => attribute.Name == "href"), link => Assert.StartsWith("data:image/jpeg;base64,", link.Value, StringComparison.Ordinal));
        Assert.DoesNotContain("NaN", svg.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_set_stands_on_the_chart_as_one_bar_an_exposure()
    {
        var forecast = Forecasts.ThatFits;
        var bars = new Plate(forecast).Chart(200)!.Marks.OfType<Clip>().Single().Marks.OfType<Outline>().Where(bar => bar.Inside is not null).ToList();
        Assert.Equal(forecast.Set!.Clock.Exposures.Count, bars.Count);
        // Time runs down: every exposure is below the one before.
        Assert.Equal(bars.Select(bar => bar.Points[0].Y).Order(), bars.Select(bar => bar.Points[0].Y));
    }

    [Fact]
    public void The_painted_plate_is_the_drawing_at_twice_the_size_with_its_words()
    {
        var plate = new Plate(Forecasts.ThatFits);
        using var painted = SKBitmap.Decode(plate.Png());
        var drawn = XElement.Parse(plate.Svg());
        Assert.Equal(2 * double.Parse(drawn.Attribute("width")!.Value, System.Globalization.CultureInfo.InvariantCulture), painted.Width);
        // The title stands on bare paper: without letters it would be one colour.
        var title = from x in Enumerable.Range(96, 600) from y in Enumerable.Range(14, 30) select painted.GetPixel(x, y);
        Assert.True(title.Distinct().Count() > 20);
    }

    [Fact]
    public void The_painted_chart_shows_light_and_shade_under_its_bearings()
    {
        using var painted = SKBitmap.Decode(new Plate(Forecasts.ThatFits).ChartPng());
        var pixels = painted.Pixels.ToHashSet();
        Assert.All((Rgb[])[Texture.Lit.Ground, Texture.Shade.Ground], light => Assert.Contains(new SKColor(light.R, light.G, light.B), pixels));
        // Over the plot stand ticks and figures.
        var bearings = from x in Enumerable.Range(96, 2000) from y in Enumerable.Range(14, 30) select painted.GetPixel(x, y);
        Assert.True(bearings.Distinct().Count() > 20);
    }

    [Fact]
    public void A_day_without_a_window_is_drawn_too_and_a_lookout_in_cloud_is_refused()
    {
        Assert.Contains("<svg", new Plate(Forecasts.WithoutLight).Svg(), StringComparison.Ordinal);
        var blind = Forecasts.ThatFits with { Scene = null, WhyNone = "Under the cloud." };
        var bad = Assert.Throws<Engine.Measures.BadInputException>(() => new Plate(blind));
        Assert.Contains("Under the cloud.", bad.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void States_of_light_differ_in_grey_or_in_texture_too()
    {
        Texture[] textures = [Texture.Lit, Texture.Shade, Texture.Partly, Texture.ValleyToo, Texture.NoRidge];
        var looks = textures.Select(texture => (Grey(texture.Ground), string.Join(' ', texture.Dots))).ToList();
        foreach (var (a, b) in looks.SelectMany((a, i) => looks.Skip(i + 1).Select(b => (a, b))))
            Assert.True(a.Item2 != b.Item2 || Math.Abs(a.Item1 - b.Item1) > 20);

        static double Grey(Rgb colour) => (0.299 * colour.R) + (0.587 * colour.G) + (0.114 * colour.B);
    }
}
