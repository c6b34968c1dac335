using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Light;

/// <summary>What makes one light better than another for the picture, each from 0 to 1 (docs/model.md, F8). Common practice, no source.</summary>
public static class LightRichness
{
    // The beam is white at 5000 K and as red as beams on ridges get at 1667 K; even in reciprocal temperature.
    private const double WhiteMired = 200;
    private const double ReddestMired = 600;

    // Half as much again as makes a black point.
    private const double DeepestStops = 1.5 * BlackPoint.LeastStops;

    /// <summary>How red the sun's beam is.</summary>
    public static double Warmth(Chromaticity beam) => beam.Correlated() is { } colour
        ? Math.Clamp(((1e6 / colour.Kelvin) - WhiteMired) / (ReddestMired - WhiteMired), 0, 1)
        : 1;

    /// <summary>How far shade lies under lit ground.</summary>
    public static double Depth(double stops) => Math.Clamp(stops / DeepestStops, 0, 1);

    /// <summary>How far ground in the sun lies over the same ground in shade, on the ridge itself.</summary>
    public static double Depth(RidgeLight light) => Depth(Math.Log2(light.TotalLux / light.DiffuseLux));
}
