using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Weather;

/// <summary>The cloud of a run between two of its hours, about some places.</summary>
internal sealed class CloudAhead
{
    private static readonly Length LongestStep = Length.FromKilometres(1);
    private static readonly Length ShortestStep = Length.FromMetres(250);

    private readonly CloudFields from;
    private readonly CloudFields to;

    private CloudAhead(WeatherRun run, TimeBracket bracket, IReadOnlyList<GeoPoint> about, Func<Instant, CloudFields> fieldsAt, Length cell)
    {
        (Run, Bracket, About) = (run, bracket, about);
        from = fieldsAt(bracket.From);
        to = bracket.Share == 0 ? from : fieldsAt(bracket.To);
        var half = cell * 0.5;
        Step = half > LongestStep ? LongestStep : half < ShortestStep ? ShortestStep : half;
    }

    public WeatherRun Run { get; }

    public TimeBracket Bracket { get; }

    public IReadOnlyList<GeoPoint> About { get; }

    /// <summary>A kilometre, or half a cell where that is less.</summary>
    public Length Step { get; }

    public bool HasLevels => from.HasLevels;

    public bool IsReckonedFromHumidity => from.IsReckonedFromHumidity;

    /// <summary>Of the newest run that reaches the instant and the first of the places; null where none does.</summary>
    public static CloudAhead? Of(IReadOnlyList<WeatherRun> runs, Instant instant, IReadOnlyList<GeoPoint> about, Func<WeatherRun, Instant, CloudFields>? fieldsAt = null)
    {
        fieldsAt ??= (run, time) => new CloudFields(run, time, about);
        foreach (var run in runs)
        {
            if (run.Around(instant, time => CloudFields.IsIn(run, time)) is not { } bracket) continue;
            var ahead = new CloudAhead(run, bracket, about, time => fieldsAt(run, time), run.SmallestCell);
            if (ahead.ColumnAt(about[0]) is not null) return ahead;
        }
        return null;
    }

    public CloudColumn? ColumnAt(GeoPoint place)
    {
        if (from.ColumnAt(place) is not { } before) return null;
        if (Bracket.Share == 0) return before;
        return to.ColumnAt(place) is { } after ? CloudColumn.Between(before, after, (float)Bracket.Share) : null;
    }

    public CloudTrack Towards(GeoPoint ridge, Azimuth azimuth) => new(ridge, azimuth, ColumnAt, Step);
}
