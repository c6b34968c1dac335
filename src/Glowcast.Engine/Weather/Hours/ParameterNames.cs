namespace Glowcast.Engine.Weather;

/// <summary>Names and units of what is met in files for cloud and light (WMO-No. 306, code tables 4.2 and 4.5). Others go by their numbers.</summary>
public static class ParameterNames
{
    private static readonly Dictionary<(int, int, int), (string Name, string Units)> Known = new()
    {
        [(0, 0, 0)] = ("temperature", "K"),
        [(0, 0, 2)] = ("potential temperature", "K"),
        [(0, 0, 4)] = ("maximum temperature", "K"),
        [(0, 0, 5)] = ("minimum temperature", "K"),
        [(0, 0, 6)] = ("dew point", "K"),
        [(0, 0, 7)] = ("dew-point depression", "K"),
        [(0, 1, 0)] = ("specific humidity", "kg/kg"),
        [(0, 1, 1)] = ("relative humidity", "%"),
        [(0, 1, 2)] = ("humidity mixing ratio", "kg/kg"),
        [(0, 1, 3)] = ("precipitable water", "kg/m²"),
        [(0, 1, 8)] = ("total precipitation", "kg/m²"),
        [(0, 1, 10)] = ("convective precipitation", "kg/m²"),
        [(0, 1, 22)] = ("cloud mixing ratio", "kg/kg"),
        [(0, 1, 23)] = ("ice mixing ratio", "kg/kg"),
        [(0, 1, 24)] = ("rain mixing ratio", "kg/kg"),
        [(0, 1, 25)] = ("snow mixing ratio", "kg/kg"),
        [(0, 1, 82)] = ("cloud ice mixing ratio", "kg/kg"),
        [(0, 1, 83)] = ("specific cloud liquid water content", "kg/kg"),
        [(0, 1, 84)] = ("specific cloud ice water content", "kg/kg"),
        [(0, 2, 0)] = ("wind direction", "°"),
        [(0, 2, 1)] = ("wind speed", "m/s"),
        [(0, 2, 2)] = ("u-component of wind", "m/s"),
        [(0, 2, 3)] = ("v-component of wind", "m/s"),
        [(0, 2, 8)] = ("vertical velocity", "Pa/s"),
        [(0, 2, 10)] = ("absolute vorticity", "1/s"),
        [(0, 2, 22)] = ("wind gust", "m/s"),
        [(0, 3, 0)] = ("pressure", "Pa"),
        [(0, 3, 1)] = ("pressure at mean sea level", "Pa"),
        [(0, 3, 4)] = ("geopotential", "m²/s²"),
        [(0, 3, 5)] = ("geopotential height", "gpm"),
        [(0, 3, 6)] = ("height", "m"),
        [(0, 3, 18)] = ("height of the boundary layer", "m"),
        [(0, 4, 7)] = ("downward short-wave radiation", "W/m²"),
        [(0, 6, 1)] = ("total cloud cover", "%"),
        [(0, 6, 2)] = ("convective cloud cover", "%"),
        [(0, 6, 3)] = ("low cloud cover", "%"),
        [(0, 6, 4)] = ("medium cloud cover", "%"),
        [(0, 6, 5)] = ("high cloud cover", "%"),
        [(0, 6, 6)] = ("cloud water", "kg/m²"),
        [(0, 6, 11)] = ("cloud base", "m"),
        [(0, 6, 12)] = ("cloud top", "m"),
        [(0, 6, 13)] = ("ceiling", "m"),
        [(0, 6, 22)] = ("cloud cover", "%"),
        [(0, 6, 32)] = ("fraction of cloud cover", "share"),
        [(0, 6, 192)] = ("total cloud cover", "share"),
        [(0, 7, 6)] = ("convective available potential energy", "J/kg"),
        [(0, 7, 7)] = ("convective inhibition", "J/kg"),
        [(0, 7, 8)] = ("storm-relative helicity", "J/kg"),
        [(0, 14, 0)] = ("total ozone", "DU"),
        [(0, 14, 193)] = ("ozone concentration", "ppb"),
        [(0, 15, 6)] = ("composite radar reflectivity", "dBZ"),
        [(0, 19, 0)] = ("visibility", "m"),
        [(2, 0, 0)] = ("land cover", "share"),
        [(2, 0, 7)] = ("model ground height", "m"),
        [(10, 0, 3)] = ("significant wave height", "m"),
    };

    private static readonly Dictionary<int, string> Levels = new()
    {
        [1] = "ground or water",
        [2] = "cloud base",
        [3] = "cloud top",
        [4] = "0 °C level",
        [5] = "condensation level",
        [6] = "level of greatest wind",
        [7] = "tropopause",
        [8] = "top of the atmosphere",
        [10] = "whole atmosphere",
        [100] = "pressure [Pa]",
        [101] = "mean sea level",
        [102] = "height over the sea [m]",
        [103] = "height over ground [m]",
        [104] = "sigma",
        [105] = "hybrid level",
        [106] = "depth under ground [m]",
        [108] = "pressure over ground [Pa]",
        [118] = "hybrid height",
        [150] = "height-following level",
        [200] = "whole atmosphere",
        [211] = "boundary layer cloud",
        [212] = "low cloud base",
        [213] = "low cloud top",
        [214] = "low cloud layer",
        [215] = "ceiling",
        [222] = "middle cloud base",
        [223] = "middle cloud top",
        [224] = "middle cloud layer",
        [232] = "high cloud base",
        [233] = "high cloud top",
        [234] = "high cloud layer",
        [242] = "convective cloud base",
        [243] = "convective cloud top",
        [244] = "convective cloud layer",
    };

    private static readonly Dictionary<int, string> Centres = new()
    {
        [7] = "NCEP",
        [54] = "Canadian Meteorological Centre",
        [59] = "NOAA GSL",
        [74] = "Met Office",
        [78] = "Deutscher Wetterdienst",
        [80] = "Rome",
        [84] = "Météo-France",
        [85] = "Météo-France",
        [98] = "ECMWF",
        [215] = "MeteoSwiss",
        [34] = "Japan Meteorological Agency",
        [82] = "SMHI",
        [88] = "MET Norway",
        [94] = "Danish Meteorological Institute",
        [1] = "Bureau of Meteorology",
        [161] = "NOAA",
    };

    public static string NameOf(GribProduct product)
    {
        ArgumentNullException.ThrowIfNull(product);
        return Known.TryGetValue(product.Parameter, out var known) ? known.Name : $"parameter {product.Discipline}-{product.Category}-{product.Number}";
    }

    /// <summary>Empty where they are not known here.</summary>
    public static string UnitsOf(GribProduct product)
    {
        ArgumentNullException.ThrowIfNull(product);
        return Known.TryGetValue(product.Parameter, out var known) ? known.Units : "";
    }

    public static string LevelOf(GribLevel level) => Levels.GetValueOrDefault(level.Type, $"level type {level.Type}");

    public static string CentreOf(int centre) => Centres.GetValueOrDefault(centre, $"centre {centre}");
}
