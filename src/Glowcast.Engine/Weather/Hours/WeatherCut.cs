using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Weather;

/// <summary>The part of weather files that a forecast needs: fields of air and cloud, of some hours, about some places.</summary>
public static class WeatherCut
{
    private const double LowestPressurePa = 15_000;
    private const double AboutKm = 100;

    private static readonly HashSet<Parameter> Needed =
    [
        Parameter.Temperature, Parameter.DewPoint, Parameter.SpecificHumidity, Parameter.RelativeHumidity, Parameter.WindEast, Parameter.WindNorth, Parameter.Pressure,
        Parameter.Geopotential, Parameter.GeopotentialHeight, Parameter.Height, Parameter.ModelGround, Parameter.TotalCover, Parameter.LowCover, Parameter.MiddleCover, Parameter.HighCover,
        Parameter.Cover, Parameter.CoverFraction, Parameter.EcmwfTotalCover, .. Parameter.CloudWater, .. Parameter.CloudIce,
    ];

    private static readonly int[] Levels = [GribLevel.Ground, 10, GribLevel.Hybrid, 118, 150, 200, 211, 214, 224, 234];

    /// <summary>Writes what is kept, field by field.</summary>
    /// <param name="hours">Fields valid within are kept, and one beside each end; the ground is kept whatever its hour.</param>
    /// <param name="sunBearings">Towards which beams are to be followed.</param>
    /// <param name="write">Takes one message after the other.</param>
    /// <returns>How many fields were kept.</returns>
    public static int Write(GribSet set, GeoPoint lookout, Interval hours, IReadOnlyList<Azimuth> sunBearings, Action<byte[]> write, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(set);
        ArgumentNullException.ThrowIfNull(write);
        List<GeoPoint> places = [lookout, .. About(lookout), .. sunBearings.SelectMany(bearing => CloudTrack.Places(lookout, bearing))];
        var reach = Widened(set, hours);
        var kept = 0;
        foreach (var field in set.Fields.Where(field => IsNeeded(field.Product, reach)))
        {
            cancel.ThrowIfCancellationRequested();
            if (GribWriter.Cut(field, places) is not { } message) continue;
            write(message);
            kept++;
        }
        return kept;
    }

    /// <summary>Every 10° around, and the whole way to where another ridge may stand.</summary>
    private static IEnumerable<GeoPoint> About(GeoPoint lookout) =>
        Enumerable.Range(0, 36).Select(i => CloudTrack.PlaceAt(lookout, Azimuth.FromDegrees(10 * i), 1000 * AboutKm));

    private static Interval Widened(GribSet set, Interval hours)
    {
        var times = set.Fields.Where(field => field.Product.IsInstant).Select(field => field.Product.Start).Distinct().ToList();
        var before = times.Where(time => time <= hours.Start).DefaultIfEmpty(hours.Start).Max();
        var after = times.Where(time => time >= hours.End).DefaultIfEmpty(hours.End).Min();
        return new Interval(before, after);
    }

    private static bool IsNeeded(GribProduct product, Interval reach)
    {
        var parameter = Parameter.Of(product);
        if (!product.IsInstant || product.IsOfManyRuns || product.Member is not (null or 0) || !Needed.Contains(parameter) || !IsLevel(product.Level)) return false;
        var isGround = product.Level.Type == GribLevel.Ground && (parameter == Parameter.GeopotentialHeight || parameter == Parameter.Height || parameter == Parameter.Geopotential || parameter == Parameter.ModelGround);
        return isGround || (product.Start >= reach.Start && product.Start <= reach.End);
    }

    private static bool IsLevel(GribLevel level) => level.Type switch
    {
        GribLevel.Pressure => level.SecondType is not null || level.Value >= LowestPressurePa,
        GribLevel.OverGround => level.Value is 2 or 10,
        _ => Levels.Contains(level.Type),
    };
}
