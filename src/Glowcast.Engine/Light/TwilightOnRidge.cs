using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Light;

/// <summary>The phases of twilight at a ridge, minute by minute, while no sun reaches it over a level horizon.</summary>
/// <remarks>By the airless altitude of the sun at the ridge (docs/model.md, A22). Where a higher skyline hides the sun by day there
/// is shade, not twilight; this says nothing of it.</remarks>
public static class TwilightOnRidge
{
    private const double MinuteS = 60;

    /// <returns>For each minute of the track, its phases; none by day.</returns>
    public static IReadOnlyList<IReadOnlyList<Phase>> ByMinute(SunTrack track, Place crest, Haze haze)
    {
        ArgumentNullException.ThrowIfNull(track);
        var phases = Phases.Of(crest.Height, -Refraction.Dip(crest.Height, Length.Zero), GeocentricSun.SemidiameterAtOneAu, haze);
        var gone = phases[Phase.FirstOrLastDirectLight].To;
        var frame = new ObserverFrame(crest);
        return [.. Enumerable.Range(0, (int)(track.LengthS / MinuteS) + 1).Select(minute => At(minute * MinuteS))];

        IReadOnlyList<Phase> At(double seconds)
        {
            var (east, north, up) = frame.Toward(track.EarthFixedAu(seconds));
            var airless = Angle.FromRadians(Math.Atan2(up, double.Hypot(east, north)));
            return airless > gone ? [] : [.. phases.Where(phase => phase.Value.Contains(airless)).Select(phase => phase.Key)];
        }
    }
}
