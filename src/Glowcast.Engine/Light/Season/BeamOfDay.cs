namespace Glowcast.Engine.Light;

/// <summary>The sun's beam through one day of a season, against what it takes to be seen on ground.</summary>
/// <remarks>Most ground is told by bounds over all of it; the rest by its own height and altitude of the sun. Immutable.</remarks>
internal sealed class BeamOfDay
{
    private const int Rounds = 9;

    private readonly SeasonSun sun;
    private readonly LitRule rule;
    private readonly double logDistance;
    private readonly (double X, double Y, double Z)[] towards;
    private readonly double[] liftRad;
    private readonly double[] least;
    private readonly double[] most;

    public BeamOfDay(SeasonSun sun, LitRule rule, double lowestM, double highestM, double reachRad)
    {
        (this.sun, this.rule) = (sun, rule);
        (towards, liftRad) = (new (double X, double Y, double Z)[sun.Looks], new double[sun.Looks]);
        (least, most) = (new double[sun.Looks], new double[sun.Looks]);
        for (var look = 0; look < sun.Looks; look++)
        {
            var (x, y, z) = sun.EarthFixedAu(look * SeasonSun.LookS);
            var distanceAu = Math.Sqrt((x * x) + (y * y) + (z * z));
            logDistance = 2 * Math.Log2(distanceAu);
            towards[look] = (x / distanceAu, y / distanceAu, z / distanceAu);
            var middleRad = sun.AirlessRad(look, default);
            liftRad[look] = rule.ApparentRad(middleRad, (lowestM + highestM) / 2) - middleRad;
            (least[look], most[look]) = (NeedAt(middleRad + reachRad, highestM), NeedAt(middleRad - reachRad, lowestM));
        }
    }

    /// <summary>Whether ground in the sun is lit at a look.</summary>
    public bool IsLit(int look, in SeasonMember member)
    {
        var facing = Facing(look, member) / member.SkyView;
        if (facing <= least[look]) return false;
        return facing > most[look] || facing > NeedAt(sun.AirlessRad(look, member.Offset), member.Patch.Ground.Height.Metres);
    }

    /// <summary>Whether it is at a moment [s].</summary>
    public bool IsLit(double seconds, in SeasonMember member)
    {
        var at = Math.Clamp(seconds / SeasonSun.LookS, 0, sun.Looks - 1);
        var look = Math.Min((int)at, Math.Max(0, sun.Looks - 2));
        var (share, next) = (at - look, Math.Min(look + 1, sun.Looks - 1));
        var facing = ((1 - share) * Facing(look, member)) + (share * Facing(next, member));
        var airlessRad = ((1 - share) * sun.AirlessRad(look, member.Offset)) + (share * sun.AirlessRad(next, member.Offset));
        return facing / member.SkyView > NeedAt(airlessRad, member.Patch.Ground.Height.Metres);
    }

    /// <summary>When that changes between two moments.</summary>
    public double CrossS(double fromS, bool from, double toS, in SeasonMember member)
    {
        for (var round = 0; round < Rounds; round++)
        {
            var middleS = (fromS + toS) / 2;
            if (IsLit(middleS, member) == from) fromS = middleS;
            else toS = middleS;
        }
        return (fromS + toS) / 2;
    }

    private double NeedAt(double airlessRad, double heightM) => double.Exp2(rule.LogNeed(airlessRad, heightM) + logDistance);

    // n·s with the sun lifted by the air.
    private double Facing(int look, in SeasonMember member)
    {
        var (x, y, z) = towards[look];
        return (member.Normal.X * x) + (member.Normal.Y * y) + (member.Normal.Z * z) + (liftRad[look] * member.NormalUp);
    }
}
