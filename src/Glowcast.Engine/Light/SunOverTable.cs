using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Light;

/// <summary>The sun against the kept horizon of one point of a table; against the exact one where the kept one leaves it open
/// whether the point is lit. Mutable, for one thread; stand it at one point after another.</summary>
/// <param name="level">In semidiameters: the centre's height above the horizon from which the point counts as lit.</param>
internal sealed class SunOverTable(SunOverGround exact, HorizonTable table, double level)
{
    // An exact clearance is worked out within ±this.
    private const double InterestRad = 1.5 * Math.PI / 180;

    // The air flattens a low sun, so that on its way up its limb clears the horizon later than airless altitudes have it; by no
    // more than this, and above this altitude hardly at all.
    private const double FlattenedRad = 0.1 * Math.PI / 180;
    private const double LowRad = 5 * Math.PI / 180;

    private int point;

    public SunOverGround Exact { get; } = exact;

    public void StandAt(int point, Place ground)
    {
        this.point = point;
        Exact.StandAt(ground);
    }

    public SunSighting At(double seconds)
    {
        var sun = Exact.SunAt(seconds);
        var kept = table.At(point, sun.AzimuthRad);
        var clearanceRad = sun.AltitudeRad - kept.AirlessRad;
        var doubtRad = kept.DoubtRad + (sun.AltitudeRad < LowRad ? FlattenedRad : 0);
        return Math.Abs(clearanceRad - (level * sun.SemidiameterRad)) < doubtRad
            ? Exact.Against(sun, InterestRad)
            : new SunSighting(sun.AzimuthRad, sun.AltitudeRad, sun.SemidiameterRad, clearanceRad, double.NaN);
    }

    public SunSighting ExactlyAt(double seconds) => Exact.Against(Exact.SunAt(seconds), InterestRad);
}
