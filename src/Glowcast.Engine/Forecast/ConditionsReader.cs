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
    public static Conditions Read(JsonFields fields, Func<string, Profile>? soundings, Faults faults)
    {
        var visibilityKm = fields.Positive("visibilityKm", 1000, 80);
        var deckTop = fields.NumberOrNone("deckTopM", -500, 9000);
        var pressure = fields.NumberOrNone("pressureHPa", 200, 1100);
        var temperature = fields.NumberOrNone("temperatureC", -90, 60);
        var beta = fields.Number("aerosolBeta", 0, 1, 0.05);
        var litRidge = fields.Positive("litRidgeReflectance", 1, Reflectances.Usual.LitRidge);
        var shadedGround = fields.Positive("shadedGroundReflectance", 1, Reflectances.Usual.ShadedGround);
        var k = fields.Number("refractionK", -1, 0.9, SightModel.UsualRefractionK);
        var beyond = fields.NumberOrNone("beyondGridM", -500, 9000);
        var highestBeyond = fields.Number("highestBeyondM", -500, 9000, SightModel.HighestGroundOnEarth.Metres);
        var cloudSpeed = fields.NumberOrNone("cloudSpeedMs", 0, 100);
        var cloud = fields.Choice("cloudFrom", CloudMotion.Unknown, ("left", CloudMotion.FromLeft), ("right", CloudMotion.FromRight), ("nowhere", CloudMotion.Still));
        double? cloudDistance = fields.Has("cloudDistanceKm") ? fields.Positive("cloudDistanceKm", 500) : null;
        if (cloudSpeed is not null && !fields.Has("cloudDistanceKm") && deckTop is null && !fields.Has("sounding"))
            fields.Add("cloudDistanceKm", "Is missing; the drift of a cloud needs its distance, or a deckTopM or sounding to take it from.");
        var profile = fields.Text("sounding") is { } named ? ReadProfile(named, soundings ?? (text => Profile.Read(text, SoundingField)), faults) : null;
        if (pressure is null != temperature is null)
            fields.Add(pressure is null ? "pressureHPa" : "temperatureC", "Is missing; pressure and temperature belong together.");
        fields.RefuseUnknown();
        return new Conditions
        {
            Visibility = Length.FromKilometres(visibilityKm),
            DeckTop = deckTop is { } top ? Length.FromMetres(top) : null,
            Profile = profile,
            CloudSpeedMs = cloudSpeed,
            Cloud = cloud,
            CloudDistance = cloudDistance is { } km ? Length.FromKilometres(km) : null,
            Air = pressure is { } p && temperature is { } t ? new Air(p, t) : null,
            AerosolBeta = beta,
            Reflectances = new Reflectances(litRidge, shadedGround),
            Sight = new SightModel { RefractionK = k, BeyondGrid = Length.FromMetres(beyond ?? 0), HighestBeyond = Length.FromMetres(highestBeyond) },
        };
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
