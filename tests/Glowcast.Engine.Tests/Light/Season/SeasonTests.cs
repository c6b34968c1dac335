using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Tests.Terrain;
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
            Assert.InRange(day.Points, 0, 1);
            Assert.Equal(day.Windows.Count == 0, day.Points == 0);
            Assert.Equal(day.Windows.Count == 0, day.WhyNone is not null);
        });
    }

    [Fact]
    public void A_polar_winter_without_light_is_an_answer()
    {
        var grid = Grids.Square(78, 15, (_, column) => column > 600 ? 800 : 0, size: 601);
        var scene = Scene.Of(
            grid, SightModel.Usual, Place.FromDegrees(78.5, 15.3, 2), BearingSpan.FromDegrees(80, 100), LightThresholds.Usual with { RidgeFrom = Length.FromKilometres(2) });
        var days = Season.Over(scene, null, cancel: TestContext.Current.CancellationToken)
            .Days(new LocalDate(2026, 12, 20), new LocalDate(2026, 12, 22), new SeasonScore(), cancel: TestContext.Current.CancellationToken);
        Assert.All(days, day => Assert.Contains("below the horizon all day", Assert.Single(day.Reasons), StringComparison.Ordinal));
    }

    [Fact]
    public void A_range_of_no_days_or_of_more_than_five_years_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Days(new LocalDate(2026, 2, 1), new LocalDate(2026, 1, 1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Days(new LocalDate(2026, 1, 1), new LocalDate(2032, 1, 1)));
    }

    [Fact]
    public void A_windows_picture_is_that_of_its_own_forecast()
    {
        var date = new LocalDate(2026, 10, 20);
        var chart = LightChart.Over(ValleyScene.Value, LocalDay.Of(date, Valley.Lookout.Point, null), cancel: TestContext.Current.CancellationToken)!;
        var window = WindowSearch.Windows(chart)[0];
        var air = SeasonAir.Usual;
        var ridge = RidgeBrightness.Of(ValleyScene.Value, chart.Track, air.Haze)!;
        var exact = PictureLight.At(chart, window.Middle, ridge.At(window.Middle), air.Visibility, air.Reflectances);

        var quick = Days(date, date)[0].Best!;

        Assert.Equal(window.Half, quick.Half);
        Assert.Equal(exact.BlackPoint!.Stops, quick.BlackPoint!.Stops, 0.3);
        Assert.Equal(exact.Relief!.Value.Shadow, quick.Relief!.Value.Shadow, 0.1);
        Assert.Equal(ridge.At(window.Middle).DirectColour.X, quick.BeamColour!.Value.X, 0.015);
    }

    [Fact]
    public void Only_days_and_hours_asked_for_are_judged()
    {
        var (from, to) = (new LocalDate(2026, 10, 1), new LocalDate(2026, 10, 31));
        var weekend = Days(from, to, new SeasonFilter { Weekdays = [IsoDayOfWeek.Saturday, IsoDayOfWeek.Sunday] });
        // 3 October 2026 is a Saturday.
        Assert.Equal([3, 4, 10, 11, 17, 18, 24, 25, 31], weekend.Select(day => day.Date.Day));
        Assert.Contains(weekend, day => day.Points > 0);

        // The ridge looks east: it has its light in the morning.
        Assert.All(Days(from, to), day => Assert.Equal(DayHalf.Morning, day.Best!.Half));
        var evening = Days(from, to, new SeasonFilter { Half = DayHalf.Evening });
        Assert.All(evening, day => Assert.Contains("outside the hours asked for", day.WhyNone, StringComparison.Ordinal));
        Assert.All(evening, day => Assert.NotEmpty(day.Shape.RidgeLit));

        var begins = Days(from, to).Select(day => day.Best!.Begins.TimeOfDay).Order().ElementAt(15);
        var early = Days(from, to, new SeasonFilter { NotAfter = begins });
        Assert.InRange(early.Count(day => day.Best is not null), 14, 17);
    }

    [Fact]
    public void The_shape_of_a_day_has_its_rise_and_set_and_its_twilight()
    {
        var date = new LocalDate(2026, 3, 20);
        var shape = Days(date, date)[0].Shape;
        var events = Engine.Sky.SunEvents.Of(LocalDay.Of(date, Valley.Lookout.Point, null), Valley.Lookout);
        Assert.Equal(0, (shape.SunUp[0].Start - events.RiseSet.Risings[0]).TotalMinutes, 2.0);
        Assert.Equal(0, (shape.SunUp[0].End - events.RiseSet.Settings[0]).TotalMinutes, 2.0);
        Assert.Equal(0, (shape.Twilight[0].Start - events.Civil.Risings[0]).TotalMinutes, 2.0);
    }

    [Fact]
    public void A_season_can_be_stopped_and_says_how_far_it_is()
    {
        using var stop = new CancellationTokenSource();
        var said = new List<double>();
        var progress = new Immediate(share =>
        {
            lock (said) said.Add(share);
            stop.Cancel();
        });
        var year = (From: new LocalDate(2026, 1, 1), To: new LocalDate(2026, 12, 31));
        Assert.ThrowsAny<OperationCanceledException>(() => ValleySeason.Value.Days(year.From, year.To, new SeasonScore(), progress: progress, cancel: stop.Token));
        Assert.InRange(said.Count, 1, 364);
        Assert.All(said, share => Assert.InRange(share, 0, 1));
        var unseen = Scene.Of(Valley.Grid, SightModel.Usual, Valley.Lookout, BearingSpan.FromDegrees(265, 275), Thresholds);
        Assert.ThrowsAny<OperationCanceledException>(() => Season.Over(unseen, null, cancel: stop.Token));
    }

    private static IReadOnlyList<SeasonDay> Days(LocalDate from, LocalDate to, SeasonFilter? filter = null) =>
        ValleySeason.Value.Days(from, to, new SeasonScore(), filter, cancel: TestContext.Current.CancellationToken);

    private sealed class Immediate(Action<double> say) : IProgress<double>
    {
        public void Report(double value) => say(value);
    }
}
