using System.Globalization;

namespace Glowcast.Engine.Terrain;

/// <summary>What heights are counted from, by name.</summary>
internal static class VerticalDatums
{
    public const string Egm96 = "EGM96";
    public const string MeanSeaLevel = "mean sea level";

    // EPSG dataset, vertical and three-dimensional coordinate reference systems.
    private static readonly Dictionary<int, string> ByEpsg = new()
    {
        [3855] = "EGM2008",
        [4979] = "WGS 84 ellipsoid",
        [5030] = "WGS 84 ellipsoid",
        [5621] = "EVRF2007",
        [5701] = "ODN",
        [5703] = "NAVD88",
        [5714] = MeanSeaLevel,
        [5720] = "NGF-IGN69",
        [5728] = "LN02",
        [5773] = Egm96,
        [5798] = "EGM84",
        [7837] = "DHHN2016",
    };

    public static string OfEpsg(int code) => ByEpsg.GetValueOrDefault(code) ?? "EPSG:" + code.ToString(CultureInfo.InvariantCulture);
}
