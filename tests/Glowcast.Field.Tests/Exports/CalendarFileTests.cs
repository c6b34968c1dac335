using System.Text;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Field.Card;
using Glowcast.Field.Exports;
using Ical.Net.CalendarComponents;
using NodaTime;
using Duration = NodaTime.Duration;

namespace Glowcast.Field.Tests.Exports;

public class CalendarFileTests
{
    private static readonly Instant Now = Instant.FromUtc(2026, 10, 1, 12, 0);
    private static readonly CardChoices Choices = new() { Travel = Duration.FromMinutes(75) };

    [Fact]
    public void Read_back_it_spans_the_time_at_the_lookout_with_alarms_for_leaving_and_setting_up()
    {
        var (read, fit) = (Read(Forecasts.ThatFits, Now), Forecasts.ThatFits.Fit!);
        Assert.Equal(Rounded.ToSeconds(fit.OnSiteBy!.Value).ToDateTimeUtc(), read.DtStart!.AsUtc);
        Assert.Equal(Rounded.ToSeconds(Forecasts.ThatFits.BestWindow!.End.At).ToDateTimeUtc(), read.DtEnd!.AsUtc);
        Assert.Equal([-75, 0], read.Alarms.Select(alarm => alarm.Trigger!.Duration!.Value.ToTimeSpanUnspecified().TotalMinutes));
        Assert.Equal(["Leave for the lookout", "Set up at the lookout"], read.Alarms.Select(alarm => alarm.Description!));
        Assert.Contains(Cautions.Lens, read.Description!, StringComparison.Ordinal);
        Assert.Equal(Forecasts.ThatFits.Eye.Point.LatitudeDeg, read.GeographicLocation!.Latitude, 1e-6);
    }

    [Fact]
    public void Written_again_it_is_the_same_event_made_newer()
    {
        var (first, again, later) = (Read(Forecasts.ThatFits, Now), Read(Forecasts.ThatFits, Now), Read(Forecasts.TooLong, Now + Duration.FromDays(1)));
        Assert.Equal(CalendarFile.Of(Forecasts.ThatFits, Choices, Now), CalendarFile.Of(Forecasts.ThatFits, Choices, Now));
        Assert.Equal(first.Sequence, again.Sequence);
        // Another set from the same lookout, on the same day and span.
        Assert.Equal(first.Uid, later.Uid);
        Assert.Equal(first.Sequence + (24 * 60), later.Sequence);
        Assert.True(later.DtStamp!.AsUtc > first.DtStamp!.AsUtc);
        var elsewhere = Forecasts.ThatFits with { Plan = Forecasts.ThatFits.Plan with { Date = Forecasts.ThatFits.Plan.Date!.Value.PlusDays(1) } };
        Assert.NotEqual(first.Uid, Read(elsewhere, Now).Uid);
    }

    [Fact]
    public void A_day_without_light_is_an_event_of_the_day_that_says_why()
    {
        var read = Read(Forecasts.WithoutLight, Now);
        Assert.True(read.IsAllDay);
        Assert.StartsWith(Forecasts.WithoutLight.WhyNone, read.Description, StringComparison.Ordinal);
        Assert.EndsWith(Glowcast.Field.Words.NoLightWords.NextStep(Forecasts.WithoutLight.NoLight!.Value), read.Description, StringComparison.Ordinal);
        Assert.Empty(read.Alarms);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Its_lines_are_those_of_RFC_5545(bool hasLight)
    {
        var text = CalendarFile.Of(hasLight ? Forecasts.ThatFits : Forecasts.WithoutLight, Choices, Now);
        Assert.EndsWith("\r\n", text, StringComparison.Ordinal);
        var lines = text.TrimEnd().Split("\r\n");
        // Section 3.1: at most 75 octets, and no other line break.
        Assert.All(lines, line => Assert.True(Encoding.UTF8.GetByteCount(line) <= 75, line));
        Assert.DoesNotContain('\n', string.Concat(lines));
        var unfolded = text.Replace("\r\n ", "", StringComparison.Ordinal).TrimEnd().Split("\r\n");
        Assert.All(unfolded, line => Assert.Matches("^[A-Z-]+(;[A-Z-]+=[^:;]+)*:.+$", line));
        foreach (var needed in new[] { "VERSION:2.0", "PRODID:", "UID:", "DTSTAMP:20261001T120000Z", "DTSTART" })
            Assert.Single(unfolded, line => line.StartsWith(needed, StringComparison.Ordinal));
    }

    private static CalendarEvent Read(LightForecast forecast, Instant writtenAt) =>
        Ical.Net.Calendar.Load(CalendarFile.Of(forecast, Choices, writtenAt))!.Events.Single();
}
