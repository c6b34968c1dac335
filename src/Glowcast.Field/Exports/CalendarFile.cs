using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Field.Card;
using Glowcast.Field.Words;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using Ical.Net.Serialization;
using NodaTime;
using Duration = NodaTime.Duration;

namespace Glowcast.Field.Exports;

/// <summary>The time at the lookout as an iCalendar event (RFC 5545), with alarms for leaving and for setting up.</summary>
/// <remarks>The same lookout, date and span always have the same UID, and a later writing a greater SEQUENCE, so that importing it again
/// updates the event. A day without light is an event of the whole day that says so.</remarks>
internal static class CalendarFile
{
    // Sequence numbers count the minutes from here.
    private static readonly Instant SequenceZero = Instant.FromUtc(2025, 1, 1, 0, 0);

    /// <param name="writtenAt">Becomes DTSTAMP and, by the minute, SEQUENCE.</param>
    public static string Of(LightForecast forecast, CardChoices choices, Instant writtenAt)
    {
        var calendar = new Ical.Net.Calendar { ProductId = "-//Glowcast//Field card//EN", Method = "PUBLISH" };
        var made = CardTimes.Of(forecast, choices) is { } times ? Session(forecast, times) : NoLight(forecast);
        made.Uid = UidOf(forecast.Plan);
        made.DtStamp = Utc(writtenAt);
        made.Sequence = (int)Math.Max(0, (writtenAt - SequenceZero).TotalMinutes);
        made.GeographicLocation = new GeographicLocation(forecast.Eye.Point.LatitudeDeg, forecast.Eye.Point.LongitudeDeg);
        made.Location = forecast.Eye.Point.ToString();
        calendar.Events.Add(made);
        return new CalendarSerializer().SerializeToString(calendar)!;
    }

    private static CalendarEvent Session(LightForecast forecast, CardTimes times)
    {
        var clock = new Clock(forecast.Plan.Date!.Value, forecast.Plan.Lookout!.Zone);
        var made = new CalendarEvent
        {
            Summary = $"Ridge light {forecast.Plan.Span}",
            Description = string.Join('\n', [
                $"Leave {clock.Say(times.Leave)}", $"Be on site {clock.Say(times.OnSite)}", $"Start {clock.Say(times.Start)}",
                .. times.Latest is { } latest ? (string[])[$"Latest start {clock.Say(latest)} {Say.PlusMinus(times.LatestUncertainty.TotalSeconds)}"] : [],
                $"Light ends {clock.Say(times.Stop)}", FitWords.Verdict(forecast.Fit!), $"Start chosen: {FitWords.Because(forecast.Fit!)}.", .. forecast.Fit!.Reasons.Select(reason => ReasonWords.Of(reason, clock)), .. forecast.Cautions]),
            Start = Utc(times.OnSite),
            End = Utc(Instant.Max(times.Stop, times.SetEnds)),
        };
        made.Alarms.Add(AlarmAt(times.Leave - times.OnSite, "Leave for the lookout"));
        made.Alarms.Add(AlarmAt(Duration.Zero, "Set up at the lookout"));
        return made;
    }

    private static CalendarEvent NoLight(LightForecast forecast)
    {
        var date = forecast.Plan.Date!.Value;
        return new CalendarEvent
        {
            Summary = $"No ridge light {forecast.Plan.Span}",
            Description = forecast.NoLight is { } cause ? $"{forecast.WhyNone} {NoLightWords.NextStep(cause)}" : forecast.WhyNone,
            Start = new CalDateTime(date.Year, date.Month, date.Day),
            Transparency = Ical.Net.TransparencyType.Transparent,
        };
    }

    private static Alarm AlarmAt(Duration fromStart, string what) => new()
    {
        Action = Ical.Net.AlarmAction.Display,
        Description = what,
        Trigger = new Trigger(Ical.Net.DataTypes.Duration.FromTimeSpanExact(TimeSpan.FromSeconds(Math.Round(fromStart.TotalSeconds)))),
    };

    private static CalDateTime Utc(Instant instant) => new(Rounded.ToSeconds(instant).ToDateTimeUtc());

    private static string UidOf(Plan plan)
    {
        var point = plan.Lookout!.Point;
        var what = string.Create(CultureInfo.InvariantCulture, $"{point.LatitudeDeg:0.00000} {point.LongitudeDeg:0.00000} {plan.Span.From.Degrees:0.00} {plan.Span.To.Degrees:0.00}");
        return $"{Say.Iso(plan.Date!.Value)}-{Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(what)))[..16]}@glowcast";
    }
}
