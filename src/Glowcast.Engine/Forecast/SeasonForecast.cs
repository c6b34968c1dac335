using Glowcast.Engine.Light;
using Glowcast.Engine.Terrain;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>A plan whose season is wanted, under a name to tell it from others by.</summary>
public sealed record SeasonSite(string Name, Plan Plan, ElevationGrid Grid);

/// <summary>The days of one plan, in order of time.</summary>
public sealed record SiteSeason(SeasonSite Site, IReadOnlyList<SeasonDay> Days);

/// <summary>One day of one plan among the days of all.</summary>
/// <param name="Rank">1 is the best.</param>
public sealed record RankedDay(int Rank, SeasonSite Site, SeasonDay Day);

/// <summary>The season of several lookouts and spans, ranked together.</summary>
public static class SeasonForecast
{
    /// <inheritdoc cref="Forecaster.Season"/>
    public static IReadOnlyList<SiteSeason> Of(
        IReadOnlyList<SeasonSite> sites, LocalDate from, LocalDate to, SeasonFilter? filter = null, HorizonShelf? horizons = null,
        IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(sites);
        var share = 1.0 / sites.Count;
        return [.. sites.Select((site, i) => new SiteSeason(
            site, Forecaster.Season(site.Plan, site.Grid, from, to, filter, horizons, PartProgress.Of(progress, i * share, share), cancel)))];
    }

    /// <summary>The best day first; days of equal points in order of time, so that those without a window come last.</summary>
    public static IReadOnlyList<RankedDay> Ranked(IEnumerable<SiteSeason> seasons)
    {
        ArgumentNullException.ThrowIfNull(seasons);
        var days =
            from season in seasons
            from day in season.Days
            orderby day.Points descending, day.Date
            select (season.Site, Day: day);
        return [.. days.Select((entry, i) => new RankedDay(i + 1, entry.Site, entry.Day))];
    }
}
