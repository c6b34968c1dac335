using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Field.Pictures;
using NodaTime;

namespace Glowcast.Field.Tests.Pictures;

public class RidgePainterTests
{
    private static readonly LightForecast Forecast = Forecasts.ThatFits;
    private static readonly RidgeRaster Raster = RidgeRaster.Of(Forecast.Scene!, 300, 1.5, 8);

    [Fact]
    public void Each_pixel_shows_the_ground_that_is_seen_in_its_direction()
    {
        var view = Engine.Terrain.VisibleSurface.From(Forecast.Scene!.Grid, Forecast.Scene.Model, Forecast.Scene.Lookout, Forecast.Scene.Span, 300);
        for (var column = 0; column < 300; column += 37)
        {
            var skyDeg = double.RadiansToDegrees(view.Columns[column].Skyline!.Value.AltitudeRad);
            for (var row = 0; row < Raster.Rows; row += 5)
            {
                Assert.Equal(Raster.AltitudeDegOf(row) > skyDeg, Raster.At(column, row) is null);
                if (view.Columns[column].At(Angle.FromDegrees(Raster.AltitudeDegOf(row)).Radians) is { } seen) Assert.Equal(seen, Raster.At(column, row));
            }
        }
    }

    [Fact]
    public void The_crest_turns_warm_and_bright_when_the_sun_reaches_it()
    {
        var window = Forecast.BestWindow!;
        var (dawn, lit) = (CrestAt(window.Start.At - Duration.FromMinutes(25)), CrestAt(window.Middle));
        Assert.True(lit.R > dawn.R + 60, $"{dawn} {lit}");
        Assert.True(lit.R - lit.B > 20, $"{lit}");
        Assert.True(dawn.R <= dawn.B, $"{dawn}");
    }

    [Fact]
    public void The_lit_crest_has_the_hue_of_the_beam_and_shade_has_none_of_it()
    {
        // Black bodies (CIE 15): candle-red, and bluer than daylight.
        var (red, blue) = (new Chromaticity(0.5857, 0.3931), new Chromaticity(0.2807, 0.2884));
        var (lit, dark) = (Forecast.BestWindow!.Middle, Forecast.BestWindow.Start.At - Duration.FromMinutes(25));
        Assert.True(CrestAt(lit, red).R - CrestAt(lit, red).B > 60, $"{CrestAt(lit, red)}");
        Assert.True(CrestAt(lit, blue).R < CrestAt(lit, blue).B, $"{CrestAt(lit, blue)}");
        Assert.Equal(CrestAt(dark, red), CrestAt(dark, blue));
    }

    [Fact]
    public void A_hue_of_sRGB_is_that_of_its_primaries_and_white()
    {
        // IEC 61966-2-1: the chromaticities of the primaries and of D65.
        (double X, double Y, float[] Rgb)[] known =
        [
            (0.64, 0.33, [255, 0, 0]), (0.30, 0.60, [0, 255, 0]), (0.15, 0.06, [0, 0, 255]), (0.3127, 0.3290, [255, 255, 255]),
        ];
        foreach (var (x, y, rgb) in known)
        {
            var hue = Rgb.HueOf(new Chromaticity(x, y));
            Assert.All(Enumerable.Range(0, 3), channel => Assert.Equal(rgb[channel], hue[channel], 6f));
        }
    }

    [Fact]
    public void The_pictures_of_a_forecast_are_painted_in_the_colour_of_its_beam()
    {
        var at = Forecast.BestWindow!.Start.At;
        var plate = new Plate(Forecast);
        var plain = new Plate(Forecast with { Brightness = null });
        Assert.True(Forecast.Brightness!.At(at).DirectColour.X > 0.35);
        Assert.NotEqual(plain.Svg(), plate.Svg());
    }

    [Fact]
    public void Haze_brings_far_ground_nearer_to_the_tone_of_the_air()
    {
        var at = Forecast.BestWindow!.Start.At - Duration.FromMinutes(25);
        double Luminance(double visibilityKm) => Sum(new RidgePainter(Raster, Forecast.Scene!, Length.FromKilometres(visibilityKm)).At(Forecast.Chart, at, null), Raster.Rows / 4);
        Assert.True(Luminance(15) > Luminance(200) * 1.1);
    }

    [Fact]
    public void A_deck_is_drawn_paler_than_the_ground_it_hides()
    {
        var (ground, cloud) = (ValleyOf(Forecasts.ThatFits), ValleyOf(Forecasts.OverCloud));
        Assert.True(cloud > ground * 1.3, $"{ground} {cloud}");
    }

    private static double ValleyOf(LightForecast forecast)
    {
        var raster = RidgeRaster.Of(forecast.Scene!, 300, 1.5, 12);
        return Sum(new RidgePainter(raster, forecast.Scene!, Length.FromKilometres(80)).At(forecast.Chart, Forecast.BestWindow!.Start.At, null), raster.Rows - 20);
    }

    private static double Sum(PixelImage image, int row) => Enumerable.Range(0, image.Width).Sum(column => (double)(image[column, row].R + image[column, row].G + image[column, row].B));

    /// <summary>The mean just under the skyline.</summary>
    private static (double R, double B) CrestAt(Instant at, Chromaticity? beam = null)
    {
        var image = new RidgePainter(Raster, Forecast.Scene!, Length.FromKilometres(200)).At(Forecast.Chart, at, beam);
        var crest = Enumerable.Range(0, Raster.Columns).Select(column => image[column, Enumerable.Range(0, Raster.Rows).First(row => Raster.At(column, row) is not null) + 3]).ToList();
        return (crest.Average(pixel => pixel.R), crest.Average(pixel => pixel.B));
    }
}
