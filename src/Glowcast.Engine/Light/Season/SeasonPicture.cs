using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>How the picture of a season's window reads in its middle: relief, black point and colour, from the ground that
/// stands for the scene.</summary>
internal sealed class SeasonPicture(Scene scene, SeasonGround ground, SeasonAir air)
{
    private readonly GroundFacing facing = new(scene.Grid);

    public Seen At(double seconds, SeasonSun sun)
    {
        var body = sun.EarthFixedAu(seconds);
        var parts = ground.Ridge.Select(i => (Member: i, Relief: ReliefOf(i, body, ground.IsInSun(i, sun, seconds))))
            .Where(part => part.Relief is not null).ToList();
        var relief = RidgeShadow.Together(parts.Select(part => part.Relief!.Value));
        // The picture's white is at the crest; the lit patch of median distance stands for it.
        var white = parts.Where(part => part.Relief!.Value.Incidence is not null && ground.Patch(part.Member).Role == PatchRole.Crest)
            .Select(part => ground.Patch(part.Member)).OrderBy(patch => patch.Distance).ToList();
        if (white.Count == 0 || relief?.Incidence is not { } incidence) return new Seen(relief, null, null);
        var crest = white[white.Count / 2];
        var light = RidgeBrightness.LightAt(
            new ObserverFrame(crest.Ground).Toward(body), crest.Ground.Height, air.Haze, air.Air?.MovedTo(scene.Lookout.Height, crest.Ground.Height));
        return new Seen(relief, BlackPointOn(crest, incidence, light, sun.At(seconds)), light.DirectColour);
    }

    private BlackPoint BlackPointOn(GroundPatch crest, double incidence, RidgeLight light, Instant instant)
    {
        var sight = new SightAir(scene.Lookout, new SunOverGround(SunTrack.Over(new Interval(instant, instant)), scene.Grid, scene.Model), scene.Model, 0);
        var clear = Airlight.Under(light.DiffuseLux, air.Visibility);
        var sunlit = sight.SunlitShare(scene.View.Columns[crest.Column].Bearing, crest.Distance, (crest.Top + crest.Bottom) / 2, clear);
        return BlackPoint.Of((incidence * light.DirectLux) + light.DiffuseLux, light.DiffuseLux, air.Reflectances, clear.InPartShade(sunlit), crest.Distance);
    }

    private RidgeShadow? ReliefOf(int member, (double X, double Y, double Z) sun, bool isLit)
    {
        var patch = ground.Patch(member);
        return RidgeShadow.Of(facing.CosTo(patch.Ground, sun), isLit, patch.Weight);
    }

    /// <param name="Relief">Null where no ridge is visible.</param>
    /// <param name="BlackPoint">Null where none is lit.</param>
    /// <param name="BeamColour">Of the sun's beam on the crest.</param>
    public readonly record struct Seen(RidgeShadow? Relief, BlackPoint? BlackPoint, Chromaticity? BeamColour);
}
