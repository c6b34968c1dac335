using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Light;

/// <summary>When ground in the sun is seen to be lit, by <see cref="LitRule"/>.</summary>
/// <remarks>Looked at where it comes into the sun or leaves it and every two minutes between; shorter light is missed. Immutable.</remarks>
internal sealed class LitSearch(SunTrack track, LitRule rule, double stepS)
{
    private const double ToleranceS = 0.05;
    private const int MostRounds = 40;

    /// <summary>A stretch in the sun, and how the disc comes and goes at its ends.</summary>
    /// <param name="Stretch">From the crossing of the horizon to the next.</param>
    /// <param name="Level">At the ends, height of the disc's centre above the horizon, in semidiameters.</param>
    /// <param name="RisesPerS">How fast the disc rises over the horizon at the start [semidiameters/s]; ∞ where the track begins in the sun.</param>
    /// <param name="SinksPerS">And sinks at the end.</param>
    public readonly record struct SunStretch(Stretch Stretch, double Level, double RisesPerS, double SinksPerS)
    {
        /// <summary>The share of the disc above the horizon.</summary>
        public double DiscAt(double seconds)
        {
            var height = Math.Min(Level + (RisesPerS * (seconds - Stretch.StartS)), Level + (SinksPerS * (Stretch.EndS - seconds)));
            return height >= 1 || double.IsNaN(height) ? 1 : Disc.ShareOfArea(Math.Max(height, -1));
        }
    }

    /// <summary>The part of a stretch in the sun in which a patch is lit.</summary>
    public List<Stretch> Lit(in SunStretch sun, in ObserverFrame frame, double heightM, in PatchGround ground)
    {
        var lit = new List<Stretch>();
        var (beforeS, before) = (sun.Stretch.StartS, SpareAt(sun, sun.Stretch.StartS, frame, heightM, ground));
        double? startS = before > 0 ? beforeS : null;
        for (var look = (int)Math.Floor(beforeS / stepS) + 1; beforeS < sun.Stretch.EndS; look++)
        {
            var atS = Math.Min(look * stepS, sun.Stretch.EndS);
            var at = SpareAt(sun, atS, frame, heightM, ground);
            if (before > 0 != at > 0)
            {
                var crossS = CrossS(sun, frame, heightM, ground, beforeS, before, atS);
                if (startS is { } begun)
                {
                    if (crossS > begun) lit.Add(new Stretch(begun, crossS));
                    startS = null;
                }
                else startS = crossS;
            }
            (beforeS, before) = (atS, at);
        }
        if (startS is { } open && open < sun.Stretch.EndS) lit.Add(new Stretch(open, sun.Stretch.EndS));
        return lit;
    }

    /// <summary>How far share of the disc × n·s / V lies above what is needed; positive where the patch is lit.</summary>
    private double SpareAt(in SunStretch sun, double seconds, in ObserverFrame frame, double heightM, in PatchGround ground)
    {
        var (east, north, up) = frame.Toward(track.EarthFixedAu(seconds));
        var level = Math.Sqrt((east * east) + (north * north));
        var airlessRad = Math.Atan2(up, level);
        var (sin, cos) = Math.SinCos(rule.ApparentRad(airlessRad, heightM));
        var facing = ground.Normal.CosTo((east / level * cos, north / level * cos, sin));
        return facing <= 0 ? facing - 1 : (sun.DiscAt(seconds) * facing / ground.SkyView) - double.Exp2(rule.LogNeed(airlessRad, heightM));
    }

    private double CrossS(in SunStretch sun, in ObserverFrame frame, double heightM, in PatchGround ground, double fromS, double from, double toS)
    {
        for (var round = 0; round < MostRounds && toS - fromS > ToleranceS; round++)
        {
            var middleS = (fromS + toS) / 2;
            var middle = SpareAt(sun, middleS, frame, heightM, ground);
            if (middle > 0 == from > 0) fromS = middleS;
            else toS = middleS;
        }
        return (fromS + toS) / 2;
    }
}
