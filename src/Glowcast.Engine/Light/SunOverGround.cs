using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Light;

/// <summary>The sun against the horizon of one point of the ground, through a day.</summary>
/// <remarks>
/// Everything belongs to the lit point: sun altitude, refraction and horizon. The clearance is the apparent altitude of
/// the sun's centre minus the angle of the terrain horizon at the sun's own azimuth (docs/model.md, section Light).
/// Mutable, for one thread; stand it at one point after another.
/// </remarks>
internal sealed class SunOverGround(SunTrack track, ElevationGrid grid, SightModel model)
{
    // The clearance is worked out within ±this; beyond it only the sign is of interest, and rays end the sooner for it.
    private const double InterestRad = 12 * Math.PI / 180;

    // Deeper than this no horizon of any ground lets the sun through.
    private const double DeepestRad = -12 * Math.PI / 180;

    private readonly HorizonProbe probe = new(grid, model);
    private ObserverFrame frame;
    private double heightM;

    public SunTrack Track { get; } = track;

    /// <summary>By how much the grid's crests may miss the real ones [m]: for its heights, and for being blunt.</summary>
    public double HeightErrorM => double.Hypot(grid.HeightError.Size.Metres, TimingUncertainty.CrestError(grid).Metres);

    public void StandAt(Place ground)
    {
        frame = new ObserverFrame(ground);
        heightM = ground.Height.Metres;
        probe.StandAt(ground.Point.Latitude.Radians, ground.Point.Longitude.Radians, heightM);
    }

    /// <summary>By the exact ray.</summary>
    public SunSighting At(double seconds)
    {
        var sun = AirlessSun.Seen(frame, Track.EarthFixedAu(seconds));
        if (sun.AltitudeRad < DeepestRad)
        {
            // Deep night needs no horizon: the clearance is at most what it would be over the deepest one.
            var atMostRad = Math.Min(sun.AltitudeRad - DeepestRad, -2 * sun.SemidiameterRad);
            return new SunSighting(sun.AzimuthRad, sun.AltitudeRad, sun.SemidiameterRad, atMostRad, double.NaN);
        }

        var apparentRad = Refraction.ToApparentRad(sun.AltitudeRad, heightM);
        var horizon = probe.Find(sun.AzimuthRad, apparentRad - InterestRad, apparentRad + InterestRad);
        var clearanceRad = horizon.Found ? apparentRad - horizon.AngleRad : InterestRad;
        return new SunSighting(sun.AzimuthRad, apparentRad, sun.SemidiameterRad, clearanceRad, horizon.DistanceM, horizon.DistanceM > probe.EdgeM);
    }
}

/// <summary>Where the sun would stand without air [rad].</summary>
/// <param name="AzimuthRad">True bearing.</param>
/// <param name="AltitudeRad">Of its centre.</param>
/// <param name="SemidiameterRad">Half of its disc.</param>
internal readonly record struct AirlessSun(double AzimuthRad, double AltitudeRad, double SemidiameterRad)
{
    /// <param name="sunAu">From the centre of the earth to the sun, earth-fixed [AU].</param>
    public static AirlessSun Seen(in ObserverFrame frame, (double X, double Y, double Z) sunAu)
    {
        var (east, north, up) = frame.Toward(sunAu);
        var levelSq = (east * east) + (north * north);
        return new AirlessSun(
            Math.Atan2(east, north), Math.Atan2(up, Math.Sqrt(levelSq)), GeocentricSun.SemidiameterAtOneAu.Radians / Math.Sqrt(levelSq + (up * up)));
    }
}

/// <summary>The sun as a point of the ground has it at one moment.</summary>
/// <param name="AzimuthRad">True bearing of the sun [rad].</param>
/// <param name="ApparentRad">Apparent altitude of its centre [rad].</param>
/// <param name="SemidiameterRad">[rad].</param>
/// <param name="ClearanceRad">Of the centre above the horizon [rad], cut off where it no longer matters.</param>
/// <param name="HorizonM">How far what stands highest is [m]; NaN where nothing came near.</param>
/// <param name="IsBeyondGrid">What stands highest is the earth assumed past the grid's edge.</param>
internal readonly record struct SunSighting(
    double AzimuthRad, double ApparentRad, double SemidiameterRad, double ClearanceRad, double HorizonM, bool IsBeyondGrid = false)
{
    /// <summary>Height of the centre above the horizon, in semidiameters.</summary>
    public double InSemidiameters => ClearanceRad / SemidiameterRad;
}
