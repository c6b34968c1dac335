using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Server.Answers;

/// <summary>Where the sun is at an instant.</summary>
public sealed record SunAtAnswer(
    string At, double AzimuthDeg, double AirlessAltitudeDeg, double ApparentAltitudeDeg, double SemidiameterDeg, double DistanceAu,
    double EquationOfTimeMin, double DeltaTS)
{
    public static SunAtAnswer Of(Instant at, Place place, double? deltaTSeconds)
    {
        var sun = Sun.At(at, deltaTSeconds);
        var seen = sun.SeenFrom(place);
        return new SunAtAnswer(
            Moments.Utc(at), seen.Azimuth.Degrees, seen.AirlessAltitude.Degrees, Refraction.ToApparent(seen.AirlessAltitude, place.Height).Degrees,
            seen.Semidiameter.Degrees, seen.DistanceAu, sun.EquationOfTimeMin, deltaTSeconds ?? DeltaT.SecondsAt(at));
    }
}

/// <summary>The sun's day: UTC instants, null where there is no such event, and then the status says why.</summary>
/// <param name="TimeZone">Of the local times; null where the day is reckoned by the sun.</param>
public sealed record SunDayAnswer(
    string Date, string? TimeZone, SkyStatus Status, string? Sunrise, string? Sunset, string? Transit, double? TransitAltitudeDeg,
    SkyStatus CivilStatus, string? CivilDawn, string? CivilDusk, SkyStatus NauticalStatus, string? NauticalDawn, string? NauticalDusk,
    SkyStatus AstronomicalStatus, string? AstronomicalDawn, string? AstronomicalDusk)
{
    /// <summary>All events in order of time: near the polar circle a day can have two of a kind, and the fields above hold the first.</summary>
    public required IReadOnlyList<SunEventAnswer> Events { get; init; }

    public static SunDayAnswer Of(LocalDate date, Place place, DateTimeZone? zone)
    {
        var day = SunEvents.Of(LocalDay.Of(date, place.Point, zone), place);
        return new SunDayAnswer(
            NodaTime.Text.LocalDatePattern.Iso.Format(date), zone?.Id,
            day.RiseSet.Status, First(day.RiseSet.Risings), First(day.RiseSet.Settings), Moments.Utc(day.Transit?.At), day.Transit?.AirlessAltitude.Degrees,
            day.Civil.Status, First(day.Civil.Risings), First(day.Civil.Settings),
            day.Nautical.Status, First(day.Nautical.Risings), First(day.Nautical.Settings),
            day.Astronomical.Status, First(day.Astronomical.Risings), First(day.Astronomical.Settings))
        {
            Events = [.. EventsOf(day).OrderBy(happens => happens.At).Select(happens => new SunEventAnswer(happens.Name, Moments.Utc(happens.At), Moments.Local(happens.At, zone)))],
        };
    }

    private static IEnumerable<(string Name, Instant At)> EventsOf(DayOfSun day) =>
    [
        .. day.RiseSet.Risings.Select(at => ("sunrise", at)), .. day.RiseSet.Settings.Select(at => ("sunset", at)),
        .. day.Civil.Risings.Select(at => ("civilDawn", at)), .. day.Civil.Settings.Select(at => ("civilDusk", at)),
        .. day.Nautical.Risings.Select(at => ("nauticalDawn", at)), .. day.Nautical.Settings.Select(at => ("nauticalDusk", at)),
        .. day.Astronomical.Risings.Select(at => ("astronomicalDawn", at)), .. day.Astronomical.Settings.Select(at => ("astronomicalDusk", at)),
        .. day.Transit is { } transit ? [("transit", transit.At)] : Array.Empty<(string, Instant)>(),
    ];

    private static string? First(IReadOnlyList<Instant> events) => events.Count > 0 ? Moments.Utc(events[0]) : null;
}

/// <param name="Name">As the fields of a day are called: sunrise, civilDusk and so on.</param>
/// <param name="At">UTC.</param>
/// <param name="Local">Null where no time zone is known.</param>
public sealed record SunEventAnswer(string Name, string At, string? Local);
