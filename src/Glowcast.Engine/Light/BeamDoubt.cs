using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Light;

/// <summary>How far a moment may be off at which the beam begins to lift ground enough, or ceases to (docs/model.md, L9).</summary>
internal sealed class BeamDoubt(SunTrack track, LitRule rule, BeamAir air)
{
    // Without a measured value the haze of a clear day may as well be half or twice the one assumed.
    private const double HazeFactor = 2;

    // What all slopes of a grid share of the error of n·s: its smoothing lowers them together. What each has of its own evens out over the picture.
    private const double FacingError = 0.03;
    private const double LeastFacing = 0.02;

    private const double ApartS = 30;
    private const double MostS = 3600;

    private readonly BeamAir clearer = air with { Haze = Times(air.Haze, 1 / HazeFactor) };
    private readonly BeamAir hazier = air with { Haze = Times(air.Haze, HazeFactor) };

    public TimingUncertainty At(double seconds, Place place, PatchGround ground)
    {
        var frame = new ObserverFrame(place);
        var heightM = place.Height.Metres;
        var (airlessRad, facing, _) = Look(seconds);
        var secondsPerStop = 2 * ApartS / Math.Max(1e-6, Math.Abs(Look(seconds + ApartS).Stops - Look(seconds - ApartS).Stops));
        var airless = Angle.FromRadians(airlessRad);
        var haze = Math.Abs(Math.Log2(BeamLux(clearer) / BeamLux(hazier))) / 2;
        var beamStops = double.Hypot(haze, SkyLight.UncertaintyStops(airless));
        var facingStops = FacingError / (Math.Max(LeastFacing, facing) * Math.Log(2));
        return new TimingUncertainty(0, 0, 0) { BeamS = Math.Min(MostS, beamStops * secondsPerStop), FacingS = Math.Min(MostS, facingStops * secondsPerStop) };

        (double AirlessRad, double Facing, double Stops) Look(double atS)
        {
            var sun = AirlessSun.Seen(frame, track.EarthFixedAu(atS));
            var cos = ground.CosTo(sun.AzimuthRad, rule.ApparentRad(sun.AltitudeRad, heightM));
            return (sun.AltitudeRad, cos, Math.Log2(Math.Max(LeastFacing, cos)) - rule.LogNeed(sun.AltitudeRad, heightM));
        }

        double BeamLux(BeamAir through) => DirectBeam.At(Refraction.ToApparent(airless, place.Height), place.Height, through.Haze).NormalIlluminanceLux;
    }

    /// <summary>The sun's bearing from there [rad].</summary>
    public double AzimuthRad(double seconds, Place place) => AirlessSun.Seen(new ObserverFrame(place), track.EarthFixedAu(seconds)).AzimuthRad;

    private static Haze Times(Haze haze, double factor) => new(Math.Min(2, haze.Beta * factor), haze.Alpha, haze.ScaleHeight);
}
