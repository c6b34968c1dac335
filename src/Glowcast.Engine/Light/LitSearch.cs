using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Light;

/// <summary>When ground in the sun is seen to be lit, by <see cref="LitRule"/>.</summary>
/// <remarks>Looked at where it comes into the sun or leaves it and every two minutes between; shorter light is missed. Most looks are told by bounds on what the beam
/// needs anywhere in the scene then. Immutable.</remarks>
internal sealed class LitSearch
{
    private const double StepS = 120;
    private const double ToleranceS = 0.05;
    private const int MostRounds = 40;

    // The sun is as far for all ground of a scene, and lifted alike, within this [n·s].
    private const double Slack = 0.003;

    private readonly SunTrack track;
    private readonly LitRule rule;
    private readonly (double X, double Y, double Z)[] towards;
    private readonly double[] least;
    private readonly double[] most;

    public LitSearch(SunTrack track, LitRule rule, IReadOnlyList<Place> places)
    {
        (this.track, this.rule) = (track, rule);
        var count = (int)(track.LengthS / StepS) + 2;
        (towards, least, most) = (new (double X, double Y, double Z)[count], new double[count], new double[count]);
        if (places.Count == 0) return;
        var (lowestM, highestM) = (places.Min(place => place.Height.Metres), places.Max(place => place.Height.Metres));
        var middle = places[places.Count / 2];
        var frame = new ObserverFrame(middle);
        var reachRad = places.Max(place => Geodesic.Between(middle.Point, place.Point).Distance.Metres) / SightModel.EarthRadiusM;
        for (var look = 0; look < count; look++)
        {
            var (x, y, z) = track.EarthFixedAu(Math.Min(look * StepS, track.LengthS));
            var distanceAu = Math.Sqrt((x * x) + (y * y) + (z * z));
            towards[look] = (x / distanceAu, y / distanceAu, z / distanceAu);
            var airlessRad = AirlessSun.Seen(frame, (x, y, z)).AltitudeRad;
            least[look] = double.Exp2(rule.LogNeed(airlessRad + reachRad, highestM)) - Slack;
            most[look] = double.Exp2(rule.LogNeed(airlessRad - reachRad, lowestM)) + Slack;
        }
    }

    /// <summary>The part of a stretch in the sun in which ground is lit.</summary>
    public List<Stretch> Lit(in SunStretch sun, in LitGround ground)
    {
        var lit = new List<Stretch>();
        var (beforeS, before) = (sun.Time.StartS, IsLit(sun, sun.Time.StartS, ground));
        double? startS = before ? beforeS : null;
        for (var look = (int)Math.Floor(beforeS / StepS) + 1; beforeS < sun.Time.EndS; look++)
        {
            var isLast = look * StepS >= sun.Time.EndS;
            var atS = isLast ? sun.Time.EndS : look * StepS;
            var at = isLast ? IsLit(sun, atS, ground) : IsLitAt(look, sun, atS, ground);
            if (before != at)
            {
                var crossS = CrossS(sun, ground, beforeS, before, atS);
                if (startS is { } begun && crossS > begun) lit.Add(new Stretch(begun, crossS));
                startS = startS is null ? crossS : null;
            }
            (beforeS, before) = (atS, at);
        }
        if (startS is { } open && open < sun.Time.EndS) lit.Add(new Stretch(open, sun.Time.EndS));
        return lit;
    }

    private bool IsLitAt(int look, in SunStretch sun, double seconds, in LitGround ground)
    {
        var (x, y, z) = towards[look];
        var facing = (ground.Normal.X * x) + (ground.Normal.Y * y) + (ground.Normal.Z * z);
        // The air lifts the sun by up to half a degree, and so n·s.
        if (facing + LitGround.MostLift <= Math.Max(0, least[look] * ground.SkyView)) return false;
        return (facing - Slack > most[look] * ground.SkyView && sun.IsWholeAt(seconds)) || IsLit(sun, seconds, ground);
    }

    /// <summary>Whether share of the disc × n·s / V is more than is needed.</summary>
    private bool IsLit(in SunStretch sun, double seconds, in LitGround ground)
    {
        var (east, north, up) = ground.Frame.Toward(track.EarthFixedAu(seconds));
        var level = Math.Sqrt((east * east) + (north * north));
        var airlessRad = Math.Atan2(up, level);
        var (sin, cos) = Math.SinCos(rule.ApparentRad(airlessRad, ground.HeightM));
        var facing = ground.Facing.CosTo((east / level * cos, north / level * cos, sin));
        return facing > 0 && sun.DiscAt(seconds) * facing / ground.SkyView > double.Exp2(rule.LogNeed(airlessRad, ground.HeightM));
    }

    private double CrossS(in SunStretch sun, in LitGround ground, double fromS, bool from, double toS)
    {
        for (var round = 0; round < MostRounds && toS - fromS > ToleranceS; round++)
        {
            var middleS = (fromS + toS) / 2;
            if (IsLit(sun, middleS, ground) == from) fromS = middleS;
            else toS = middleS;
        }
        return (fromS + toS) / 2;
    }
}

/// <summary>A place of the ground, as the beam meets it.</summary>
/// <param name="Facing">Its normal in its own east, north and up.</param>
/// <param name="Normal">The same, earth-fixed.</param>
internal readonly record struct LitGround(ObserverFrame Frame, double HeightM, GroundNormal Facing, (double X, double Y, double Z) Normal, double SkyView)
{
    /// <summary>n·s grows by no more for the air's bending.</summary>
    public const double MostLift = 0.02;

    public static LitGround Of(Place place, GroundNormal facing, double skyView) =>
        new(new ObserverFrame(place), place.Height.Metres, facing, EarthFixed(place.Point, facing), skyView);

    /// <summary>East, north and up of a place turned into the axes of the earth.</summary>
    public static (double X, double Y, double Z) EarthFixed(GeoPoint point, GroundNormal normal)
    {
        var ((sinLat, cosLat), (sinLon, cosLon)) = (Math.SinCos(point.Latitude.Radians), Math.SinCos(point.Longitude.Radians));
        var outward = (cosLat * normal.Up) - (sinLat * normal.North);
        return ((cosLon * outward) - (sinLon * normal.East), (sinLon * outward) + (cosLon * normal.East), (sinLat * normal.Up) + (cosLat * normal.North));
    }
}
