using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using NodaTime;

namespace Glowcast.Engine.Tests.Light;

public class SeasonTests
{
    private static readonly LightThresholds Thresholds = LightThresholds.Usual with { RidgeFrom = Length.FromKilometres(8) };

    private static readonly Lazy<Scene> ValleyScene = new(() => Scene.Of(Valley.Grid, SightModel.Usual, Valley.Lookout, Valley.West, Thresholds));

    private static readonly Lazy<Season> ValleySeason = new(() => Season.Over(ValleyScene.Value, null));

    [Theory]
    [InlineData(1, 15)]
    [InlineData(3, 20)]
    [InlineData(6, 21)]
    [InlineData(10, 20)]
    public void A_day_of_the_season_has_the_windows_of_its_own_forecast_to_two_minutes(int month, int day)
    {
        var date = new LocalDate(2026, month, day);
        var chart = LightChart.Over(ValleyScene.Value, LocalDay.Of(date, Valley.Lookout.Point, null), cancel: TestContext.Current.CancellationToken)!;
        var exact = WindowSearch.Windows(chart).Where(window => window.Length > Duration.FromMinutes(4)).ToList();

        var quick = Days(date, date)[0].Windows.Where(window => window.Time.Duration > Duration.FromMinutes(4)).ToList();

        Assert.Equal(exact.Count, quick.Count);
        foreach (var (a, b) in exact.Zip(quick))
        {
            Assert.Equal(0, (a.Start.At - b.Time.Start).TotalMinutes, 2.0);
            Assert.Equal(0, (a.End.At - b.Time.End).TotalMinutes, 2.0);
        }
    }

    [Fact]
    public void Every_day_of_the_range_is_there_once_in_order_with_its_reasons()
    {
        var days = Days(new LocalDate(2026, 12, 25), new LocalDate(2027, 1, 3));
        Assert.Equal(Enumerable.Range(0, 10).Select(i => new LocalDate(2026, 12, 25).PlusDays(i)), days.Select(day => day.Date));
        Assert.All(days, day =>
        {
            Assert.NotEmpty(day.Reasons);
            Assert.InRange(day.Score, 0, 1);
            Assert.Equal(day.Windows.Count == 0, day.Score == 0);
        });
    }

    [Fact]
    public void A_longer_window_under_the_same_sun_ranks_higher()
    {
        var score = new SeasonScore(Duration.FromMinutes(5));
        SeasonDay Day(double minutes, double altitudeDeg) => score.Judge(
            new LocalDate(2026, 1, 1),
            [new SeasonWindow(new Interval(Instant.FromUnixTimeSeconds(0), Instant.FromUnixTimeSeconds((long)(60 * minutes))), 1, 0, altitudeDeg, 170)]);
        Assert.True(Day(40, 3).Score > Day(20, 3).Score);
        Assert.True(Day(20, 3).Score > Day(20, 9).Score);
        Assert.Contains("does not fit", string.Join(' ', Day(4, 3).Reasons), StringComparison.Ordinal);
    }

    [Fact]
    public void A_season_without_light_is_an_answer()
    {
        var summer = Days(new LocalDate(2026, 6, 21), new LocalDate(2026, 6, 21));
        Assert.Single(summer);
        Assert.Throws<ArgumentOutOfRangeException>(() => Days(new LocalDate(2026, 2, 1), new LocalDate(2026, 1, 1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Days(new LocalDate(2026, 1, 1), new LocalDate(2032, 1, 1)));
    }

    private static IReadOnlyList<SeasonDay> Days(LocalDate from, LocalDate to) =>
        ValleySeason.Value.Days(from, to, new SeasonScore(), cancel: TestContext.Current.CancellationToken);
}
