using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
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
    public void Haze_brings_far_ground_nearer_to_the_tone_of_the_air()
    {
        var at = Forecast.BestWindow!.Start.At - Duration.FromMinutes(25);
        double Luminance(double visibilityKm) => Sum(new RidgePainter(Raster, Forecast.Scene!, Length.FromKilometres(visibilityKm)).At(Forecast.Chart, at), Raster.Rows / 4);
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
        return Sum(new RidgePainter(raster, forecast.Scene!, Length.FromKilometres(80)).At(forecast.Chart, Forecast.BestWindow!.Start.At), raster.Rows - 20);
    }

    private static double Sum(PixelImage image, int row) => Enumerable.Range(0, image.Width).Sum(column => (double)(image[column, row].R + image[column, row].G + image[column, row].B));

    /// <summary>The mean just under the skyline.</summary>
    private static (double R, double B) CrestAt(Instant at)
    {
        var image = new RidgePainter(Raster, Forecast.Scene!, Length.FromKilometres(200)).At(Forecast.Chart, at);
        var crest = Enumerable.Range(0, Raster.Columns).Select(column => image[column, Enumerable.Range(0, Raster.Rows).First(row => Raster.At(column, row) is not null) + 3]).ToList();
        return (crest.Average(pixel => pixel.R), crest.Average(pixel => pixel.B));
    }
}
