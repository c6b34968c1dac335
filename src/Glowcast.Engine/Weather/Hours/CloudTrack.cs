using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Weather;

/// <summary>The cloud over the line from a lit place towards the sun, so that beams of several heights can be followed along it.</summary>
/// <param name="ridge">The lit place.</param>
/// <param name="azimuth">Of the sun.</param>
/// <param name="columnAt">The cloud over a place; null where the files do not reach.</param>
/// <param name="step">Between columns.</param>
internal sealed class CloudTrack(GeoPoint ridge, Azimuth azimuth, Func<GeoPoint, CloudColumn?> columnAt, Length step)
{
    public static readonly Length Farthest = Length.FromKilometres(500);

    private const double HighestCloudM = 13_000;

    /// <summary>Files that end lower than this leave high cloud unseen.</summary>
    private const double HighEnoughM = 9000;

    private const double SteepestStepM = 100;
    private const double LeastPerKm = 0.01;
    private const double MostOpticalDepth = 99;

    private readonly Dictionary<int, CloudColumn?> columns = [];

    /// <summary>Places along the way, for what must be read of the files.</summary>
    public static IEnumerable<GeoPoint> Places(GeoPoint ridge, Azimuth azimuth) =>
        Enumerable.Range(0, 51).Select(i => PlaceAt(ridge, azimuth, Farthest.Metres * i / 50));

    public BeamThroughCloud Along(SunwardBeam beam)
    {
        var walk = new Walk();
        // A steep beam rises through thin levels within a step along the ground.
        var slope = Math.Tan(Math.Clamp(beam.Altitude.Radians, 0.0, 1.5));
        var stepM = slope > 0 ? Math.Clamp(SteepestStepM / slope, 10, step.Metres) : step.Metres;
        var (end, atM) = (BeamEnd.Reach, 0.0);
        for (; atM < Farthest.Metres; atM += stepM)
        {
            var heightM = beam.HeightAt(Length.FromMetres(atM + (stepM / 2))).Metres;
            var column = ColumnNear(atM + (stepM / 2));
            if (heightM < 0) end = BeamEnd.Sea;
            else if (heightM > HighestCloudM) end = BeamEnd.AboveCloud;
            else if (column is null) end = BeamEnd.Files;
            else if (heightM > column.TopM && column.TopM < HighEnoughM) end = BeamEnd.Levels;
            else
            {
                walk.Pass(column.At(heightM), atM, atM + stepM, heightM, beam.LengthTo(atM + stepM) - beam.LengthTo(atM));
                continue;
            }
            break;
        }
        return walk.Result(Math.Min(atM, Farthest.Metres), end, metres => PlaceAt(ridge, azimuth, metres), metres => beam.HeightAt(Length.FromMetres(metres)));
    }

    private CloudColumn? ColumnNear(double metres)
    {
        var number = (int)Math.Round(metres / step.Metres);
        if (!columns.TryGetValue(number, out var column)) columns[number] = column = columnAt(PlaceAt(ridge, azimuth, number * step.Metres));
        return column;
    }

    /// <summary>On the great circle of a sphere, as the beam is followed.</summary>
    private static GeoPoint PlaceAt(GeoPoint from, Azimuth azimuth, double metres)
    {
        var (sinD, cosD) = Math.SinCos(metres / SightModel.EarthRadiusM);
        var (sinA, cosA) = Math.SinCos(azimuth.Degrees * Math.PI / 180);
        var (sinLat, cosLat) = Math.SinCos(from.Latitude.Radians);
        var sin = (sinLat * cosD) + (cosLat * sinD * cosA);
        var east = Math.Atan2(sinA * sinD * cosLat, cosD - (sinLat * sin));
        return GeoPoint.FromDegrees(Math.Asin(Math.Clamp(sin, -1, 1)) * 180 / Math.PI, from.LongitudeDeg + (east * 180 / Math.PI));
    }

    /// <summary>Adds up what a beam meets, step by step.</summary>
    private sealed class Walk
    {
        private readonly List<Stretch> stretches = [];
        private double depth;
        private double unclear;
        private bool knowsCover;
        private Stretch? open;

        private sealed class Stretch
        {
            public double FromM { get; init; }

            public double ToM { get; set; }

            public double Depth { get; set; }

            public double Cover { get; set; } = double.NaN;
        }

        public void Pass(CloudHere cloud, double fromM, double toM, double heightM, double lengthM)
        {
            var km = lengthM / 1000;
            // (1−f)^(Δs/L): clouds of a broken sky are about L long, so that neighbouring cells are not independent.
            var broken = double.IsNaN(cloud.Cover) ? 0 : -Math.Log(Math.Max(1e-13, 1 - cloud.Cover)) * km / CloudLengthKm(heightM);
            knowsCover |= !double.IsNaN(cloud.Cover);
            unclear += broken;
            var taken = double.IsNaN(cloud.PerKm) ? broken : cloud.PerKm * km;
            depth += taken;
            if (taken <= LeastPerKm * km)
            {
                open = null;
                return;
            }
            if (open is null) stretches.Add(open = new Stretch { FromM = fromM });
            open.ToM = toM;
            open.Depth += taken;
            open.Cover = double.IsNaN(cloud.Cover) ? open.Cover : double.IsNaN(open.Cover) ? cloud.Cover : Math.Max(open.Cover, cloud.Cover);
        }

        public BeamThroughCloud Result(double endM, BeamEnd end, Func<double, GeoPoint> placeAt, Func<double, Length> heightAt) => new(
            Math.Min(depth, MostOpticalDepth * 100), Math.Exp(-depth), knowsCover ? Math.Exp(-unclear) : null,
            [
                .. stretches.Select(stretch => new CloudCrossing(
                    Length.FromMetres(stretch.FromM), Length.FromMetres(stretch.ToM), heightAt(stretch.FromM), heightAt(stretch.ToM), stretch.Depth,
                    double.IsNaN(stretch.Cover) ? null : stretch.Cover, placeAt((stretch.FromM + stretch.ToM) / 2))),
            ],
            Length.FromMetres(endM), end);

        /// <summary>How long clouds are, about: common practice.</summary>
        private static double CloudLengthKm(double heightM) => heightM < 2000 ? 15 : heightM < 6000 ? 25 : 50;
    }
}
