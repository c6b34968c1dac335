using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Showing;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Server.Answers;

namespace Glowcast.Cli.Commands;

/// <summary>What the air does to the sun: refraction, air mass, brightness and colour.</summary>
internal sealed class SkyCommand : AnswerCommand
{
    private readonly Option<string[]> at = Ask.For("--at", "instant", "With Z or an offset; needs --latitude and --longitude.");
    private readonly Option<string[]> altitude = Ask.For("--altitude", "degrees", "Of the sun's centre, airless, instead of --at.");
    private readonly Option<string[]> latitude = Ask.Latitude();
    private readonly Option<string[]> longitude = Ask.Longitude();
    private readonly Option<string[]> height = Ask.For("--height", "metres", "Of the lit place. Default 0.");
    private readonly Option<string[]> beta = Ask.For("--aerosol-beta", "number", "Haze: Ångström's β at the sea. Default 0.05.");
    private readonly Option<string[]> pressure = Ask.For("--pressure", "hPa", "At the place, with --temperature. Default: standard air.");
    private readonly Option<string[]> temperature = Ask.For("--temperature", "degrees", "Celsius, with --pressure.");

    public SkyCommand(Terminal terminal) : base(
        "sky", "How the air bends, dims and colours the sun, and how bright the sky is.",
        "glowcast sky --altitude 1 --height 2500", terminal) =>
        Takes(at, altitude, latitude, longitude, height, beta, pressure, temperature);

    protected override void Answer(Question asked, CancellationToken cancel)
    {
        var isInstant = asked.Has(at);
        if (isInstant == asked.Has(altitude)) asked.Faults.Add("--at", "Give either --at with a place, or --altitude.");
        var metres = Length.FromMetres(asked.Number(height, -400, 9000, 0));
        var haze = new Haze(asked.Number(beta, 0, 1, 0.05));
        var air = ReadAir(asked, metres);
        var answer = isInstant ? OfInstant(asked, metres, haze, air) : OfAltitude(asked, metres, haze, air);
        Reply(asked, answer, page => Write(page, answer));
    }

    private SkyAnswer OfInstant(Question asked, Length metres, Haze haze, Air? air)
    {
        var point = GeoPoint.FromDegrees(asked.Number(latitude, -90, 90), asked.Number(longitude, -180, 180));
        var instant = asked.Optional(at, TimeReader.Moment);
        asked.Faults.ThrowIfAny();
        return SkyAnswer.Of(instant, new Place(point, metres), haze, air);
    }

    private SkyAnswer OfAltitude(Question asked, Length metres, Haze haze, Air? air)
    {
        asked.Refuse(latitude, "Belongs to --at; leave it out with --altitude.");
        asked.Refuse(longitude, "Belongs to --at; leave it out with --altitude.");
        var degrees = asked.Has(altitude) ? asked.Number(altitude, -90, 90) : 0;
        asked.Faults.ThrowIfAny();
        return SkyAnswer.Of(Angle.FromDegrees(degrees), metres, haze, air);
    }

    private Air? ReadAir(Question asked, Length metres)
    {
        var (hPa, celsius) = (asked.NumberOrNone(pressure, 200, 1100), asked.NumberOrNone(temperature, -90, 60));
        if (hPa is null != celsius is null)
            asked.Faults.Add(hPa is null ? pressure.Name : temperature.Name, "Is missing; pressure and temperature belong together.");
        if (hPa is not { } p || celsius is not { } t) return null;
        var air = new Air(p, t);
        if (!air.CanStandAt(metres))
            asked.Faults.Add(pressure.Name, $"Is too high for air {metres.Metres:0} m up; give the pressure at the place itself, not reduced to the sea.");
        return air;
    }

    private static void Write(Page page, SkyAnswer sky)
    {
        page.Title(sky.At is { } instant ? $"The sky at {instant}" : $"The sky with the sun at {sky.AirlessAltitudeDeg:0.###}°, airless");
        page.Paragraph($"For a place {sky.HeightM:0} m high with an open sea horizon, clear air.");
        var beam = sky.Beam;
        page.Facts(
            ("altitude, airless", $"{sky.AirlessAltitudeDeg:0.0000}°"),
            ("altitude, apparent", $"{sky.ApparentAltitudeDeg:0.0000}°, lifted by {sky.RefractionArcmin:0.00}′"),
            ("sea horizon", $"{sky.DipArcmin:0.0}′ below the horizontal"),
            ("air mass", sky.AirMass is { } mass ? $"{mass:0.000}, or {sky.AirMassSeaLevel:0.000} columns of sea-level air" : null),
            ("direct beam", beam.StopsLost is { } lost ? $"{beam.NormalLux:0} lx facing the sun, {lost:0.0} stops below space" : "none: the sun is down"),
            ("its colour", beam.X is { } x ? $"x {x:0.0000}, y {beam.Y:0.0000}{(beam.CctK is { } kelvin ? $", {kelvin:0} K, Duv {beam.Duv:+0.0000;-0.0000}" : ", redder than any glowing body")}" : null),
            ("exposure value", beam.Ev100 is { } ev ? $"{ev:0.0} at ISO 100, facing the sun" : null),
            ("sky alone", $"{(sky.SkyLux < 10 ? $"{sky.SkyLux:0.####}" : $"{sky.SkyLux:0}")} lx on level ground, ± {sky.SkyUncertaintyStops:0.0} stops{(sky.SkyStopsPerMinute is { } rate ? $"; {rate:+0.00;-0.00} stops a minute" : "")}"),
            ("phases", sky.Phases.Count > 0 ? string.Join(", ", sky.Phases.Select(Words)) : null),
            ("moon", sky.Moon is { } moon ? $"bearing {moon.AzimuthDeg:0.0}°, altitude {moon.AirlessAltitudeDeg:0.0}°, {moon.IlluminatedFraction:0 %} lit, {moon.HorizontalLux:0.000} lx" : null));
    }

    /// <summary>DirectLowSun as "direct low sun".</summary>
    private static string Words(Phase phase) => string.Concat(phase.ToString().Select((letter, i) => char.IsUpper(letter) ? $"{(i > 0 ? " " : "")}{char.ToLowerInvariant(letter)}" : $"{letter}"));
}
