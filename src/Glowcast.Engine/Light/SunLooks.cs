using System.Runtime.Intrinsics;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Light;

/// <summary>The sun of one day at even steps, looked at from one point of the ground after another against its kept horizon, eight looks at once.</summary>
internal sealed class SunLooks
{
    private const double MostStepS = 120;
    private const int Lanes = 8;

    // The air flattens a low sun, so that on its way up its limb clears the horizon later than airless altitudes have it; by no
    // more than this, and above this altitude hardly at all.
    private const float FlattenedRad = (float)(0.1 * Math.PI / 180);
    private const float LowRad = (float)(5 * Math.PI / 180);

    private readonly float[] xAu;
    private readonly float[] yAu;
    private readonly float[] zAu;
    private readonly float levelRad;

    /// <param name="level">In semidiameters: the centre's height above the horizon from which a point counts as lit.</param>
    public SunLooks(SunTrack track, double level)
    {
        Count = Math.Max(2, (int)Math.Ceiling(track.LengthS / MostStepS) + 1);
        StepS = track.LengthS / (Count - 1);
        Padded = (Count + Lanes - 1) / Lanes * Lanes;
        (xAu, yAu, zAu) = (new float[Padded], new float[Padded], new float[Padded]);
        for (var i = 0; i < Padded; i++)
        {
            var sun = track.EarthFixedAu(Math.Min(i, Count - 1) * StepS);
            (xAu[i], yAu[i], zAu[i]) = ((float)sun.X, (float)sun.Y, (float)sun.Z);
        }
        var noon = track.EarthFixedAu(track.LengthS / 2);
        SunDistanceAu = Math.Sqrt((noon.X * noon.X) + (noon.Y * noon.Y) + (noon.Z * noon.Z));
        SemidiameterRad = GeocentricSun.SemidiameterAtOneAu.Radians / SunDistanceAu;
        levelRad = (float)(level * SemidiameterRad);
    }

    /// <summary>From the first to the last second of the track.</summary>
    public int Count { get; }

    /// <summary>The same in whole eights.</summary>
    public int Padded { get; }

    public double StepS { get; }

    /// <summary>Of the disc, the same all day.</summary>
    public double SemidiameterRad { get; }

    /// <summary>The same all day.</summary>
    public double SunDistanceAu { get; }

    /// <summary>Looks at the whole day from one point.</summary>
    /// <param name="horizon">Its own.</param>
    /// <param name="around">The sun of this day, as seen from around there.</param>
    /// <param name="clearanceRad">Of the centre above the horizon, between airless altitudes; <see cref="Padded"/> values [rad].</param>
    /// <param name="side">Of the level: 1 above, −1 below, 0 where the kept horizon leaves it open.</param>
    /// <param name="disc">1 wholly above the horizon, −1 wholly below it, 0 in part.</param>
    public void From(in ObserverFrame frame, HorizonAround horizon, SunAround around, Span<float> clearanceRad, Span<sbyte> side, Span<sbyte> disc)
    {
        var (before, here) = ((sbyte)0, Clear(0));
        for (var eight = 0; eight < Padded / Lanes; eight++)
        {
            var next = eight + 1 < Padded / Lanes ? Clear(eight + 1) : here;
            // Beside a change everything is looked at.
            if (here != 0 && here == next && (eight == 0 || here == before))
            {
                clearanceRad.Slice(eight * Lanes, Lanes).Fill(here);
                side.Slice(eight * Lanes, Lanes).Fill(here);
                disc.Slice(eight * Lanes, Lanes).Fill(here);
            }
            else LookAt(eight * Lanes, frame, horizon, clearanceRad, side, disc);
            (before, here) = (here, next);
        }

        sbyte Clear(int eight)
        {
            ref readonly var sun = ref around.Eights[eight];
            return sun.LowestRad - horizon.HighestRad(sun.FirstDegree, sun.LastDegree) > ClearRad ? (sbyte)1
                : sun.HighestRad - horizon.LowestRad(sun.FirstDegree, sun.LastDegree) < -ClearRad ? (sbyte)-1
                : (sbyte)0;
        }
    }

    // The whole disc, and its flattening.
    private float ClearRad => (float)SemidiameterRad + FlattenedRad;

    private unsafe void LookAt(int first, in ObserverFrame frame, HorizonAround horizon, Span<float> clearanceRad, Span<sbyte> side, Span<sbyte> disc)
    {
        var (altitude, degrees) = Sun(first, frame);
        // In the very zenith the azimuth is no number.
        var degree = Vector256.Max(Vector256<int>.Zero, Vector256.Min(Vector256.ConvertToInt32Native(degrees), Vector256.Create(HorizonDirections.Steps - 1)));
        fixed (float* airless = horizon.AirlessRad, doubts = horizon.DoubtRad)
        {
            var (before, after) = (EightValues.At(airless, degree), EightValues.At(airless, degree + Vector256<int>.One));
            var clearance = altitude - (before + ((degrees - Vector256.ConvertToSingle(degree)) * (after - before)));
            var doubt = EightValues.At(doubts, degree)
                + Vector256.ConditionalSelect(Vector256.LessThan(altitude, Vector256.Create(LowRad)), Vector256.Create(FlattenedRad), Vector256<float>.Zero);
            var (over, semidiameter) = (clearance - Vector256.Create(levelRad), Vector256.Create((float)SemidiameterRad));
            clearance.CopyTo(clearanceRad[first..]);
            Sides(Vector256.GreaterThan(over, doubt), Vector256.LessThan(over, -doubt)).CopyTo(side[first..]);
            Sides(Vector256.GreaterThanOrEqual(clearance, semidiameter), Vector256.LessThanOrEqual(clearance, -semidiameter)).CopyTo(disc[first..]);
        }
    }

    /// <summary>Airless altitude [rad] and azimuth [°] at eight looks.</summary>
    private (Vector256<float> AltitudeRad, Vector256<float> AzimuthDeg) Sun(int first, in ObserverFrame frame)
    {
        var (east, north, up) = frame.Toward(
            Vector256.Create<float>(xAu.AsSpan(first)), Vector256.Create<float>(yAu.AsSpan(first)), Vector256.Create<float>(zAu.AsSpan(first)));
        var altitude = RayTangent.Angle(up / Vector256.Sqrt((east * east) + (north * north)));
        var azimuth = RayTangent.Angle(east / north);
        azimuth += Vector256.ConditionalSelect(Vector256.LessThan(north, Vector256<float>.Zero), Vector256.Create((float)Math.PI), Vector256<float>.Zero);
        azimuth += Vector256.ConditionalSelect(Vector256.LessThan(azimuth, Vector256<float>.Zero), Vector256.Create((float)Math.Tau), Vector256<float>.Zero);
        return (altitude, azimuth * (float)(180 / Math.PI));
    }

    /// <summary>The sun of the day as it may be seen from anywhere near to a place.</summary>
    /// <param name="reachRad">How far around, as an angle at the centre of the earth.</param>
    public SunAround Around(Place middle, double reachRad)
    {
        var frame = new ObserverFrame(middle);
        var (reach, steepest) = ((float)reachRad, Math.Abs(Math.Tan(middle.Point.Latitude.Radians)));
        var eights = new SunEight[Padded / Lanes];
        for (var i = 0; i < eights.Length; i++)
        {
            var (altitude, degrees) = Sun(i * Lanes, frame);
            var (low, high, left, right) = (altitude[0], altitude[0], degrees[0], degrees[0]);
            for (var lane = 1; lane < Lanes; lane++)
            {
                (low, high) = (Math.Min(low, altitude[lane]), Math.Max(high, altitude[lane]));
                (left, right) = (Math.Min(left, degrees[lane]), Math.Max(right, degrees[lane]));
            }
            // North turns from place to place with the meridians, and the sun's azimuth the more, the higher it stands.
            var aside = (float)double.RadiansToDegrees(reachRad * (1 + steepest + Math.Tan(Math.Min(1.55, high + reach))));
            eights[i] = new SunEight(low - reach, high + reach, (int)MathF.Floor(left - aside), (int)MathF.Floor(right + aside));
        }
        return new SunAround(eights);
    }

    private static Vector64<sbyte> Sides(Vector256<float> above, Vector256<float> below)
    {
        // All bits of a comparison that holds are −1.
        var sides = below.AsInt32() - above.AsInt32();
        var narrow = Vector128.Narrow(sides.GetLower(), sides.GetUpper());
        return Vector64.Narrow(narrow.GetLower(), narrow.GetUpper());
    }
}

/// <summary>The sun at eight looks, as it may be seen from anywhere around.</summary>
/// <param name="LowestRad">Airless altitude [rad].</param>
/// <param name="FirstDegree">Of azimuth, cut off.</param>
internal readonly record struct SunEight(float LowestRad, float HighestRad, int FirstDegree, int LastDegree);

/// <summary>The sun of a day, as it may be seen from anywhere around.</summary>
internal sealed record SunAround(SunEight[] Eights);
