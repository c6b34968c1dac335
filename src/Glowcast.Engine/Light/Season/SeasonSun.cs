using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>The sun of one day, looked at every five minutes, for a place and those around it.</summary>
/// <remarks>Three positions of the day's sun and a parabola between them; to places around, its altitude and azimuth are carried
/// by their slopes there: within 0.025° up to 100 km away, for latitudes under 80° (docs/model.md, L10).</remarks>
internal sealed class SeasonSun
{
    public const double LookS = 300;

    // For the slopes; 64 m on the ground.
    private const double ApartRad = 1e-5;

    private readonly Interval day;
    private readonly (double TurnRad, double DeclinationRad, double DistanceAu)[] nodes;
    private readonly Look[] looks;
    private readonly int first;
    private readonly ObserverFrame middleFrame;

    private SeasonSun(Interval day, Place middle)
    {
        this.day = day;
        nodes = Nodes(day);
        var count = (int)(day.Duration.TotalSeconds / LookS) + 1;
        middleFrame = new ObserverFrame(middle);
        var frames = (Middle: middleFrame, North: Moved(middle, ApartRad, 0), East: Moved(middle, 0, ApartRad));
        var all = new Look[count];
        for (var i = 0; i < count; i++) all[i] = LookAt(i * LookS, frames);
        first = Math.Max(0, Array.FindIndex(all, look => look.AirlessRad > Daylight.Lowest.Radians) - 1);
        var last = Math.Min(count - 1, Array.FindLastIndex(all, look => look.AirlessRad > Daylight.Lowest.Radians) + 1);
        looks = all[first..(last + 1)];
        SemidiameterRad = GeocentricSun.SemidiameterAtOneAu.Radians / nodes[1].DistanceAu;
    }

    /// <summary>Of the disc, the same all day.</summary>
    public double SemidiameterRad { get; }

    public int Looks => looks.Length;

    public double LengthS => (looks.Length - 1) * LookS;

    /// <summary>The stretches in which the sun climbs or sinks over the middle.</summary>
    public IReadOnlyList<Stretch> Halves => Stretch.Halves(LengthS, AltitudeRad);

    /// <summary>The part of a day with the sun above −6°; null where it never comes so high.</summary>
    public static SeasonSun? Of(Interval day, Place middle)
    {
        var sun = new SeasonSun(day, middle);
        return Array.Exists(sun.looks, look => look.AirlessRad > Daylight.Lowest.Radians) ? sun : null;
    }

    public Instant At(double seconds) => day.Start + Duration.FromSeconds((first * LookS) + seconds);

    public double AirlessRad(int look, GroundOffset from) =>
        looks[look].AirlessRad + (looks[look].AirlessPerNorth * from.NorthRad) + (looks[look].AirlessPerEast * from.EastRad);

    /// <summary>Of the sun over the middle.</summary>
    public double CosAltitude(int look) => looks[look].CosAltitude;

    public double AzimuthRad(int look, GroundOffset from) =>
        looks[look].AzimuthRad + (looks[look].AzimuthPerNorth * from.NorthRad) + (looks[look].AzimuthPerEast * from.EastRad);

    /// <summary>From the centre of the earth to the sun [AU].</summary>
    public (double X, double Y, double Z) EarthFixedAu(double seconds) => OfDay((first * LookS) + seconds);

    /// <summary>When the sun stands higher than an airless altitude over the middle.</summary>
    public List<Stretch> Above(Angle airless) => Stretch.Above(looks.Length, LookS, look => looks[look].AirlessRad - airless.Radians);

    // The turn of the sun about the earth's axis is kept without its even part, a full circle in 24 hours.
    private static (double TurnRad, double DeclinationRad, double DistanceAu)[] Nodes(Interval day)
    {
        var nodes = new (double TurnRad, double DeclinationRad, double DistanceAu)[3];
        for (var i = 0; i < nodes.Length; i++)
        {
            var seconds = day.Duration.TotalSeconds * i / 2;
            var sun = Sun.At(day.Start + Duration.FromSeconds(seconds));
            var turnRad = sun.RightAscension.Radians - sun.GreenwichSiderealTime.Radians + EvenRad(seconds);
            if (i > 0) turnRad = nodes[0].TurnRad + Math.IEEERemainder(turnRad - nodes[0].TurnRad, Math.Tau);
            nodes[i] = (turnRad, sun.Declination.Radians, sun.DistanceAu);
        }
        return nodes;
    }

    // Airless, over the middle.
    private double AltitudeRad(double seconds)
    {
        var (east, north, up) = middleFrame.Toward(EarthFixedAu(seconds));
        return Math.Atan2(up, Math.Sqrt((east * east) + (north * north)));
    }

    private static double EvenRad(double seconds) => Math.Tau * seconds / 86400;

    private (double X, double Y, double Z) OfDay(double seconds)
    {
        var t = 2 * seconds / day.Duration.TotalSeconds;
        // Lagrange weights on nodes 0, 1, 2.
        var (a, b, c) = ((t - 1) * (t - 2) / 2, -t * (t - 2), t * (t - 1) / 2);
        var (p, q, r) = (nodes[0], nodes[1], nodes[2]);
        return SkyVector.EarthFixed(
            (a * p.TurnRad) + (b * q.TurnRad) + (c * r.TurnRad) - EvenRad(seconds),
            (a * p.DeclinationRad) + (b * q.DeclinationRad) + (c * r.DeclinationRad), 0,
            (a * p.DistanceAu) + (b * q.DistanceAu) + (c * r.DistanceAu));
    }

    private Look LookAt(double seconds, (ObserverFrame Middle, ObserverFrame North, ObserverFrame East) frames)
    {
        var sun = OfDay(seconds);
        var (middle, north, east) = (Seen(frames.Middle), Seen(frames.North), Seen(frames.East));
        return new Look(
            middle.AirlessRad, middle.AzimuthRad, (north.AirlessRad - middle.AirlessRad) / ApartRad, (east.AirlessRad - middle.AirlessRad) / ApartRad,
            Math.IEEERemainder(north.AzimuthRad - middle.AzimuthRad, Math.Tau) / ApartRad,
            Math.IEEERemainder(east.AzimuthRad - middle.AzimuthRad, Math.Tau) / ApartRad);

        (double AirlessRad, double AzimuthRad) Seen(ObserverFrame frame)
        {
            var (e, n, up) = frame.Toward(sun);
            return (Math.Atan2(up, Math.Sqrt((e * e) + (n * n))), Math.Atan2(e, n));
        }
    }

    private static ObserverFrame Moved(Place place, double northRad, double eastRad) => new(place with
    {
        Point = GeoPoint.FromDegrees(
            Math.Min(90, place.Point.LatitudeDeg + double.RadiansToDegrees(northRad)), place.Point.LongitudeDeg + double.RadiansToDegrees(eastRad)),
    });

    private readonly record struct Look(
        double AirlessRad, double AzimuthRad, double AirlessPerNorth, double AirlessPerEast, double AzimuthPerNorth, double AzimuthPerEast)
    {
        public double CosAltitude { get; } = Math.Cos(AirlessRad);
    }
}

/// <summary>By how much a place lies north and east of another, as differences of latitude and longitude.</summary>
internal readonly record struct GroundOffset(double NorthRad, double EastRad)
{
    public static GroundOffset Between(GeoPoint from, GeoPoint to) => new(
        to.Latitude.Radians - from.Latitude.Radians, Math.IEEERemainder(to.Longitude.Radians - from.Longitude.Radians, Math.Tau));
}
