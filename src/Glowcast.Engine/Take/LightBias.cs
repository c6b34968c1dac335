using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Take;

/// <summary>A forecast that was seen to be off, at a lookout.</summary>
internal sealed record LightRecord(GeoPoint Lookout, LightMiss Miss);

/// <summary>By how much forecasts of first or last light have been off: learned from what was seen.</summary>
/// <remarks>docs/model.md, Take eq. 18.</remarks>
/// <param name="Count">How many times it was seen.</param>
/// <param name="Mean">Positive where the light comes or goes later than forecast.</param>
/// <param name="Spread">Of single times about the mean, one standard deviation; null for one alone.</param>
internal sealed record LightBias(LightChange Change, int Count, Duration Mean, Duration? Spread)
{
    private const int EnoughToApply = 3;
    private const double SurelyNotChance = 2;

    // Lookouts nearer than this see the same light.
    private static readonly Length SameLookout = Length.FromMetres(300);

    /// <summary>At one lookout.</summary>
    /// <returns>Null where none was seen there.</returns>
    public static LightBias? At(GeoPoint lookout, LightChange change, IEnumerable<LightRecord> records)
    {
        ArgumentNullException.ThrowIfNull(records);
        return Of(change, records.Where(record => Apart(record.Lookout, lookout) <= SameLookout));
    }

    /// <summary>At all lookouts together.</summary>
    /// <inheritdoc cref="At"/>
    public static LightBias? Of(LightChange change, IEnumerable<LightRecord> records)
    {
        ArgumentNullException.ThrowIfNull(records);
        var late = records.Where(record => record.Miss.Change == change).Select(record => record.Miss.Late.TotalSeconds).ToList();
        if (late.Count == 0) return null;
        var mean = late.Average();
        return new LightBias(
            change, late.Count, Duration.FromSeconds(mean),
            late.Count == 1 ? null : Duration.FromSeconds(Math.Sqrt(late.Sum(each => (each - mean) * (each - mean)) / (late.Count - 1))));
    }

    /// <summary>Of the mean, one standard deviation; null for one alone.</summary>
    public Duration? MeanUncertainty => Spread is { } spread ? Duration.FromSeconds(spread.TotalSeconds / Math.Sqrt(Count)) : null;

    /// <summary>Seen often enough, and farther from zero than chance explains.</summary>
    public bool IsWorthApplying => Count >= EnoughToApply && Math.Abs(Mean.TotalSeconds) > SurelyNotChance * MeanUncertainty!.Value.TotalSeconds;

    /// <summary>A forecast moment, moved by the bias. For the user to ask for: no forecast does it by itself.</summary>
    public Instant Applied(Instant forecast) => forecast + Mean;

    // Over such short ways the earth is flat.
    private static Length Apart(GeoPoint a, GeoPoint b)
    {
        const double metresPerDegree = 111_200;
        var east = (a.LongitudeDeg - b.LongitudeDeg) * Math.Cos(double.DegreesToRadians(a.LatitudeDeg));
        return Length.FromMetres(metresPerDegree * double.Hypot(east, a.LatitudeDeg - b.LatitudeDeg));
    }
}
