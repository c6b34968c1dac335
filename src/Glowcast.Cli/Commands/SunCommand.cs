using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Showing;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Server.Answers;
using NodaTime;

namespace Glowcast.Cli.Commands;

/// <summary>Where the sun is at an instant, or what it does on a day.</summary>
internal sealed class SunCommand : AnswerCommand
{
    private readonly Option<string[]> at = Ask.For("--at", "instant", "With Z or an offset: 2026-02-14T06:45:00-05:00.");
    private readonly Option<string[]> date = Ask.For("--date", "date", "A local date, such as 2026-02-14.");
    private readonly Option<string[]> latitude = Ask.Latitude();
    private readonly Option<string[]> longitude = Ask.Longitude();
    private readonly Option<string[]> height = Ask.For("--height", "metres", "Of the place. Default 0.");
    private readonly Option<string[]> zone = Ask.TimeZone();
    private readonly Option<string[]> deltaT = Ask.For("--delta-t", "seconds", "Terrestrial minus universal time, with --at. Default: from a table and a forecast.");

    public SunCommand(Terminal terminal) : base(
        "sun", "Where the sun is at an instant, or its rising, setting and twilights on a day.",
        "glowcast sun --date 2026-02-14 --latitude 44.26 --longitude -71.2", terminal) =>
        Takes(at, date, latitude, longitude, height, zone, deltaT);

    protected override void Answer(Question asked, CancellationToken cancel)
    {
        var isDay = asked.Has(date);
        if (isDay == asked.Has(at)) asked.Faults.Add("--at", "Give either --at for an instant, or --date for a day.");
        var place = new Place(
            GeoPoint.FromDegrees(asked.Number(latitude, -90, 90), asked.Number(longitude, -180, 180)),
            Length.FromMetres(asked.Number(height, -500, 9000, 0)));
        var local = asked.Optional(zone, TimeReader.Zone);
        if (isDay) SayDay(asked, asked.Optional(date, TimeReader.Date), place, local);
        else SayInstant(asked, asked.Optional(at, TimeReader.Moment), place, local);
    }

    private void SayInstant(Question asked, Instant instant, Place place, DateTimeZone? local)
    {
        var seconds = asked.NumberOrNone(deltaT, -10_000, 100_000);
        asked.Faults.ThrowIfAny();
        var sun = SunAtAnswer.Of(instant, place, seconds);
        Reply(asked, sun, page =>
        {
            var day = instant.InZone(local ?? DateTimeZone.Utc).Date;
            page.Title($"The sun on {Say.Day(day, local ?? DateTimeZone.Utc)}, at {new Clock(day, local).Say(instant)}");
            page.Paragraph($"Seen from {place.Point}, at {Say.Metres(place.Height)}.");
            page.Facts(
                ("true bearing", $"{sun.AzimuthDeg:0.0000}°"),
                ("altitude, airless", $"{sun.AirlessAltitudeDeg:0.0000}°"),
                ("altitude, apparent", $"{sun.ApparentAltitudeDeg:0.0000}°, lifted by standard air"),
                ("semidiameter", $"{sun.SemidiameterDeg:0.0000}°"),
                ("distance", $"{sun.DistanceAu:0.000000} au"),
                ("equation of time", $"{sun.EquationOfTimeMin:+0.00;-0.00} min"),
                ("delta T", $"{sun.DeltaTS:0.00} s{(seconds is null ? "" : ", as given")}"));
        });
    }

    private void SayDay(Question asked, LocalDate day, Place place, DateTimeZone? local)
    {
        asked.Refuse(deltaT, "Belongs to --at; leave it out with --date.");
        asked.Faults.ThrowIfAny();
        Reply(asked, SunDayAnswer.Of(day, place, local), page =>
        {
            var sun = SunEvents.Of(LocalDay.Of(day, place.Point, local), place);
            page.Title($"The sun on {Say.Day(day, local)}");
            page.Paragraph($"Seen from {place.Point}, over a level horizon.");
            page.Table(["", .. new Clock(day, local).Headings], SunRows.Of(sun, new Clock(day, local)));
        });
    }
}
