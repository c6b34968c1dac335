namespace Glowcast.Engine.Light;

/// <summary>How finely a day is searched for light.</summary>
/// <param name="ShortestStepS">Light or shade shorter than this may be missed [s].</param>
/// <param name="SteepestSkyline">How many degrees the horizon may rise or fall per degree of azimuth between two looks.</param>
/// <param name="ToleranceS">How closely a crossing is found [s].</param>
/// <param name="LongestStepS">No two looks are farther apart, however far the sun is from the horizon [s].</param>
internal readonly record struct SearchFineness(double ShortestStepS, double SteepestSkyline, double ToleranceS, double LongestStepS)
{
    /// <summary>For one point, as closely as the terrain allows.</summary>
    public static readonly SearchFineness OnePoint = new(2, 10, 0.02, 600);
}

/// <summary>The sun's clearance over one point at chosen moments of a day: many near the horizon, few far from it.</summary>
/// <remarks>
/// The next look is taken no later than the clearance could have reached the nearest level: the sun moves by 15° an
/// hour at most along its path, in azimuth by that over the cosine of its altitude, and the horizon under it rises or
/// falls by <see cref="SearchFineness.SteepestSkyline"/> times the change of azimuth.
/// </remarks>
internal sealed class ClearanceTrace
{
    /// <summary>The sun moves along its path by no more than this.</summary>
    public const double SunRadPerS = 2 * Math.PI / 86164;

    private readonly SunOverGround ground;
    private readonly SearchFineness fineness;
    private readonly List<(double Seconds, SunSighting Sun)> looks = [];

    /// <param name="lowest">The lowest level that will be asked for, in semidiameters.</param>
    /// <param name="highest">The highest.</param>
    public ClearanceTrace(SunOverGround ground, SearchFineness fineness, double lowest, double highest)
    {
        (this.ground, this.fineness) = (ground, fineness);
        var end = ground.Track.LengthS;
        for (var seconds = 0.0; ; seconds = Math.Min(end, seconds + StepS(looks[^1].Sun, lowest, highest)))
        {
            looks.Add((seconds, ground.At(seconds)));
            if (seconds >= end) return;
        }
    }

    /// <summary>The looks taken, in order of time, from the first to the last second of the track.</summary>
    public IReadOnlyList<(double Seconds, SunSighting Sun)> Looks => looks;

    /// <summary>The stretches in which the sun's centre stands higher than a level above the horizon.</summary>
    /// <param name="level">In semidiameters: −1 any limb, 0 the centre, +1 the whole disc.</param>
    public List<LitStretch> Above(double level)
    {
        var stretches = new List<LitStretch>();
        HorizonCrossing? start = looks[0].Sun.InSemidiameters > level ? new HorizonCrossing(0, null) : null;
        for (var i = 1; i < looks.Count; i++)
        {
            var (before, after) = (looks[i - 1], looks[i]);
            if (before.Sun.InSemidiameters > level == after.Sun.InSemidiameters > level) continue;
            var crossing = Between(before, after, level);
            if (start is null) start = crossing;
            else
            {
                stretches.Add(new LitStretch(start.Value, crossing));
                start = null;
            }
        }
        if (start is not null) stretches.Add(new LitStretch(start.Value, new HorizonCrossing(looks[^1].Seconds, null)));
        return stretches;
    }

    private double StepS(SunSighting sun, double lowest, double highest)
    {
        var above = sun.ClearanceRad - (highest * sun.SemidiameterRad);
        var below = (lowest * sun.SemidiameterRad) - sun.ClearanceRad;
        var perS = SunRadPerS * (1 + (fineness.SteepestSkyline / Math.Max(0.02, Math.Cos(sun.ApparentRad))));
        return Math.Clamp(Math.Max(above, below) / perS, fineness.ShortestStepS, fineness.LongestStepS);
    }

    private HorizonCrossing Between((double Seconds, SunSighting Sun) before, (double Seconds, SunSighting Sun) after, double level)
    {
        var search = new CrossingSearch(
            before.Seconds, before.Sun.InSemidiameters, after.Seconds, after.Sun.InSemidiameters, level, before.Sun.SemidiameterRad, fineness.ToleranceS);
        while (true)
        {
            var sun = ground.At(search.AtS);
            if (search.Take(sun)) return new HorizonCrossing(search.AtS, sun);
        }
    }
}

/// <summary>A moment at which the sun's clearance crosses a level, or at which the beam lifts ground enough, or no longer.</summary>
/// <param name="Seconds">After the start of the track.</param>
/// <param name="Sun">At that moment; null where the track begins or ends in the light, and for the beam.</param>
/// <param name="ByBeam">The sun stands over the horizon, and what changes is how it lights the ground.</param>
internal readonly record struct HorizonCrossing(double Seconds, SunSighting? Sun, bool ByBeam = false)
{
    public static HorizonCrossing OfBrightness(double seconds) => new(seconds, null, ByBeam: true);
}

/// <summary>A stretch of direct light, from one crossing to the next.</summary>
internal readonly record struct LitStretch(HorizonCrossing Start, HorizonCrossing End);
