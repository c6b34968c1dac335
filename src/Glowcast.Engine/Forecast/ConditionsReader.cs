using Glowcast.Engine.Capture;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Weather;

namespace Glowcast.Engine.Forecast;

/// <summary>Reads the state of air and cloud that a plan assumes.</summary>
internal static class ConditionsReader
{
    private const string SoundingField = "conditions.sounding";

    /// <param name="soundings">Finds the sounding that a plan names; null where the plan holds the text of the sounding itself.</param>
    /// <param name="faults">Where <paramref name="fields"/> notes its faults.</param>
    /// <param name="weathers">Reads the weather files that a plan names; null where none can be.</param>
    /// <param name="surfaces">Reads the raster of surfaces that a plan names; null where none can be.</param>
    public static Conditions Read(
        JsonFields fields, Func<string, Profile>? soundings, Faults faults, Func<IReadOnlyList<string>, WeatherFiles?>? weathers = null, Func<string, SurfaceRaster?>? surfaces = null)
    {
        var (visibility, report) = ReadVisibility(fields);
        var deckTop = fields.NumberOrNone("deckTopM", -500, 9000);
        var pressure = fields.NumberOrNone("pressureHPa", 200, 1100);
        var temperature = fields.NumberOrNone("temperatureC", -90, 60);
        var beta = fields.Number("aerosolBeta", 0, 1, 0.05);
        var litRidge = fields.Positive("litRidgeReflectance", 1, Reflectances.Usual.LitRidge);
        var shadedGround = fields.Positive("shadedGroundReflectance", 1, Reflectances.Usual.ShadedGround);
        var snowLine = fields.NumberOrNone("snowLineM", -500, 9000);
        var deckReflectance = fields.Positive("deckReflectance", 1, Surfaces.UsualDeck);
        var k = fields.Number("refractionK", -1, 0.9, SightModel.UsualRefractionK);
        var beyond = fields.NumberOrNone("beyondGridM", -500, 9000);
        var highestBeyond = fields.Number("highestBeyondM", -500, 9000, SightModel.HighestGroundOnEarth.Metres);
        var cloudSpeed = fields.NumberOrNone("cloudSpeedMs", 0, 100);
        var cloud = fields.Choice("cloudFrom", CloudMotion.Unknown, ("left", CloudMotion.FromLeft), ("right", CloudMotion.FromRight), ("nowhere", CloudMotion.Still));
        double? cloudDistance = fields.Has("cloudDistanceKm") ? fields.Positive("cloudDistanceKm", 500) : null;
        if (cloudSpeed is not null && !fields.Has("cloudDistanceKm") && deckTop is null && !fields.Has("sounding"))
            fields.Add("cloudDistanceKm", "Is missing; the drift of a cloud needs its distance, or a deckTopM or sounding to take it from.");
        var layers = ReadLayers(fields.Object("cloudLayers"));
        var profile = fields.Text("sounding") is { } named ? ReadProfile(named, soundings ?? (text => Profile.Read(text, SoundingField)), faults) : null;
        var weather = ReadWeather(fields, weathers, faults);
        var raster = ReadSurfaces(fields, surfaces, faults);
        if (pressure is null != temperature is null)
            fields.Add(pressure is null ? "pressureHPa" : "temperatureC", "Is missing; pressure and temperature belong together.");
        fields.RefuseUnknown();
        return new Conditions
        {
            Visibility = visibility,
            VisibilityReport = report,
            CloudLayers = layers,
            DeckTop = deckTop is { } top ? Length.FromMetres(top) : null,
            Profile = profile,
            Weather = weather,
            CloudSpeedMs = cloudSpeed,
            Cloud = cloud,
            CloudDistance = cloudDistance is { } km ? Length.FromKilometres(km) : null,
            Air = pressure is { } p && temperature is { } t ? new Air(p, t) : null,
            AerosolBeta = beta,
            Reflectances = new Reflectances(litRidge, shadedGround),
            SnowLine = snowLine is { } line ? Length.FromMetres(line) : null,
            DeckReflectance = deckReflectance,
            SurfaceRaster = raster,
            Sight = new SightModel { RefractionK = k, BeyondGrid = beyond is { } metres ? Length.FromMetres(metres) : PastEdge.AsTheEdge, HighestBeyond = Length.FromMetres(highestBeyond) },
        };
    }

    /// <summary>The distance at which 2 % of contrast is left. A report of "so much or more" leaves the usual value, where that is more.</summary>
    private static (Length Visibility, ReportedVisibility? Report) ReadVisibility(JsonFields fields)
    {
        const double usualKm = 80;
        var given = Length.FromKilometres(fields.Positive("visibilityKm", 1000, usualKm));
        if (fields.Text("visibility") is not { } text) return (given, null);
        if (fields.Has("visibilityKm")) fields.Add("visibility", "Cannot stand beside visibilityKm: give the report or the number.");
        try
        {
            var report = ReportedVisibility.Read(text, "visibility");
            var isLimit = report.Bound == VisibilityBound.AtLeast && report.MeteorologicalRange < given;
            return (isLimit ? given : report.MeteorologicalRange, report);
        }
        catch (BadInputException bad)
        {
            fields.Add("visibility", bad.Faults[0].Message);
            return (given, null);
        }
    }

    private static List<CloudLayer> ReadLayers(JsonFields fields)
    {
        var layers = new List<CloudLayer>();
        foreach (var (name, level) in new[] { ("low", CloudLevel.Low), ("middle", CloudLevel.Middle), ("high", CloudLevel.High) })
        {
            var layer = fields.Object(name);
            if (!layer.IsPresent) continue;
            var (cover, baseM, topM) = (layer.Number("cover", 0, 1), layer.Number("baseM", -500, 20_000), layer.NumberOrNone("topM", -500, 20_000));
            if (topM < baseM) layer.Add("topM", $"Must not be lower than baseM; got {topM} under {baseM}.");
            layer.RefuseUnknown();
            layers.Add(new CloudLayer(level, cover, Length.FromMetres(baseM), topM is { } top ? Length.FromMetres(top) : null));
        }
        fields.RefuseUnknown();
        return layers;
    }

    private static WeatherFiles? ReadWeather(JsonFields fields, Func<IReadOnlyList<string>, WeatherFiles?>? weathers, Faults faults)
    {
        var names = fields.Texts("weather");
        if (names.Count == 0) return null;
        if (weathers is null)
        {
            fields.Add("weather", "Cannot be read here: weather files are read on the command line. Leave it out.");
            return null;
        }
        try
        {
            return weathers(names);
        }
        catch (BadInputException bad)
        {
            foreach (var fault in bad.Faults) faults.Add(fault.Field, fault.Message);
            return null;
        }
    }

    private static SurfaceRaster? ReadSurfaces(JsonFields fields, Func<string, SurfaceRaster?>? surfaces, Faults faults)
    {
        if (fields.Text("surfaces") is not { } named) return null;
        if (surfaces is null)
        {
            fields.Add("surfaces", "Cannot be read here: a raster of surfaces is read on the command line. Leave it out.");
            return null;
        }
        try
        {
            return surfaces(named);
        }
        catch (BadInputException bad)
        {
            foreach (var fault in bad.Faults) faults.Add(fault.Field, fault.Message);
            return null;
        }
    }

    private static Profile? ReadProfile(string named, Func<string, Profile> soundings, Faults faults)
    {
        try
        {
            return soundings(named);
        }
        catch (BadInputException bad)
        {
            foreach (var fault in bad.Faults) faults.Add(fault.Field, fault.Message);
            return null;
        }
    }
}
