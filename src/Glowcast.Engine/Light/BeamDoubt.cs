using System.Collections.Concurrent;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Light;

/// <summary>How far a moment may be off at which the beam begins to lift ground enough, or ceases to (docs/model.md, L9).</summary>
internal sealed class BeamDoubt(SunTrack track, LitRule rule, BeamAir air)
{
    private readonly SunTrack track = track;
    private readonly LitRule rule = rule;
    private readonly ConcurrentDictionary<(int QuarterDegrees, int HalfKilometres), double> hazeStops = new();

    // Without a measured value the haze of a clear day may as well be half or twice the one assumed.
    private const double HazeFactor = 2;

    // What all slopes of a grid share of the error of n·s: its smoothing lowers them together. What each has of its own evens out over the picture.
    private const double FacingError = 0.03;
    private const double LeastFacing = 0.02;

    private const double FirstStepS = 30;
    private const double StepGrowth = 1.25;
    private const double MostS = 3600;

    private readonly BeamAir clearer = air with { Haze = Times(air.Haze, 1 / HazeFactor) };
    private readonly BeamAir hazier = air with { Haze = Times(air.Haze, HazeFactor) };

    /// <summary>Of a moment that the beam decides: half the time between beams stronger and weaker by one standard deviation.</summary>
    public TimingUncertainty At(double seconds, Place place, PatchGround ground)
    {
        var looks = new Looks(this, place, ground);
        var doubt = looks.DoubtAt(seconds);
        var perStopS = (looks.SecondsUntilSure(seconds, 1) + looks.SecondsUntilSure(seconds, -1)) / (2 * doubt.Both);
        return new TimingUncertainty(0, 0, 0) { BeamS = doubt.Beam * perStopS, FacingS = doubt.Facing * perStopS, IsByBeam = true };
    }

    /// <summary>The same of a moment that the horizon decides, with what the beam adds, which may turn out too weak then: what is wanting is a normal error cut off at nothing.</summary>
    /// <param name="byHorizon">Of the horizon.</param>
    public TimingUncertainty Beside(TimingUncertainty byHorizon, double seconds, Place place, PatchGround ground)
    {
        var looks = new Looks(this, place, ground);
        var doubt = looks.DoubtAt(seconds);
        var spare = looks.SpareStops(seconds) / doubt.Both;
        if (spare > Far) return byHorizon;
        var wanting = doubt.Both * CutOffDeviation(spare);
        // Towards more light: later in the morning, earlier in the evening.
        var towards = looks.SpareStops(seconds + FirstStepS) >= looks.SpareStops(seconds - FirstStepS) ? 1 : -1;
        var perStopS = looks.SecondsUntilSure(seconds, towards) / doubt.Both;
        return byHorizon with { BeamS = wanting * perStopS * doubt.Beam / doubt.Both, FacingS = wanting * perStopS * doubt.Facing / doubt.Both };
    }

    // Standard deviations from which on the beam is surely strong enough.
    private const double Far = 4;

    /// <summary>The standard deviation of max(0, x), x normal with mean −spare and standard deviation 1.</summary>
    internal static double CutOffDeviation(double spare)
    {
        var (density, beyond) = (MathNet.Numerics.Distributions.Normal.PDF(0, 1, spare), MathNet.Numerics.Distributions.Normal.CDF(0, 1, -spare));
        var mean = density - (spare * beyond);
        return Math.Sqrt(Math.Max(0, ((1 + (spare * spare)) * beyond) - (spare * density) - (mean * mean)));
    }

    // Half the difference between half and twice the haze; every quarter of a degree and 500 m.
    private double HazeStops(double airlessRad, double heightM) => hazeStops.GetOrAdd(((int)Math.Round(double.RadiansToDegrees(airlessRad) * 4), (int)Math.Round(heightM / 500)), node =>
    {
        var (airless, height) = (Angle.FromDegrees(node.QuarterDegrees / 4.0), Length.FromMetres(node.HalfKilometres * 500.0));
        return Math.Abs(Math.Log2(BeamLux(clearer) / BeamLux(hazier))) / 2;

        double BeamLux(BeamAir through) => DirectBeam.At(Refraction.ToApparent(airless, height), height, through.Haze).NormalIlluminanceLux;
    });

    /// <summary>The beam on one place, from moment to moment.</summary>
    private sealed class Looks(BeamDoubt doubts, Place place, PatchGround ground)
    {
        private readonly ObserverFrame frame = new(place);
        private readonly double heightM = place.Height.Metres;
        private readonly double logView = Math.Log2(ground.SkyView);

        /// <summary>By how much the beam lifts the ground more than it must.</summary>
        public double SpareStops(double seconds)
        {
            var (airlessRad, cos) = SunAt(seconds);
            return Math.Log2(Math.Max(LeastFacing, cos)) - logView - doubts.rule.LogNeed(airlessRad, heightM);
        }

        /// <summary>How far the beam against the sky, and n·s, may be off [stops].</summary>
        public (double Beam, double Facing, double Both) DoubtAt(double seconds)
        {
            var (airlessRad, cos) = SunAt(seconds);
            var beam = double.Hypot(doubts.HazeStops(airlessRad, heightM), SkyLight.UncertaintyStops(Angle.FromRadians(airlessRad)));
            var facing = FacingError / (Math.Max(LeastFacing, cos) * Math.Log(2));
            return (beam, facing, double.Hypot(beam, facing));
        }

        /// <summary>From a moment on, or back, until the beam is stronger or weaker than then by what it may be off by; an hour at most, and no farther than the track.</summary>
        public double SecondsUntilSure(double fromS, int direction)
        {
            var (first, beforeS, before) = (SpareStops(fromS), 0.0, -DoubtAt(fromS).Both);
            for (var stepS = FirstStepS; beforeS < MostS; stepS *= StepGrowth)
            {
                var atS = Math.Min(MostS, beforeS + stepS);
                if (fromS + (direction * atS) < 0 || fromS + (direction * atS) > doubts.track.LengthS) break;
                var sure = Math.Abs(SpareStops(fromS + (direction * atS)) - first) - DoubtAt(fromS + (direction * atS)).Both;
                if (sure >= 0) return beforeS + ((atS - beforeS) * -before / (sure - before));
                (beforeS, before) = (atS, sure);
            }
            return Math.Max(FirstStepS, beforeS);
        }

        private (double AirlessRad, double Cos) SunAt(double seconds)
        {
            var sun = AirlessSun.Seen(frame, doubts.track.EarthFixedAu(seconds));
            return (sun.AltitudeRad, ground.CosTo(sun.AzimuthRad, doubts.rule.ApparentRad(sun.AltitudeRad, heightM)));
        }
    }

    /// <summary>The sun's bearing from there [rad].</summary>
    public double AzimuthRad(double seconds, Place place) => AirlessSun.Seen(new ObserverFrame(place), track.EarthFixedAu(seconds)).AzimuthRad;

    private static Haze Times(Haze haze, double factor) => new(Math.Min(2, haze.Beta * factor), haze.Alpha, haze.ScaleHeight);
}
