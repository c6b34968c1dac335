using System.CommandLine;
using System.Globalization;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Showing;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Weather;
using Glowcast.Server.Answers;
using NodaTime;

namespace Glowcast.Cli.Commands;

/// <summary>What the cloud of a model leaves of a sunbeam.</summary>
internal sealed class WeatherBeamCommand : AnswerCommand
{
    private readonly Argument<string[]> files = WeatherAsked.Files();
    private readonly Option<string[]> from = Ask.For("--from", "lat,lon,heightM", "The lit place, with its height above the sea.");
    private readonly Option<string[]> azimuth = Ask.For("--azimuth", "degrees", "True bearing of the sun.");
    private readonly Option<string[]> altitude = Ask.For("--altitude", "degrees", "Apparent altitude of the sun at the lit place; negative below the horizontal.");
    private readonly Option<string[]> at = Ask.For("--at", "instant", "With Z or an offset, such as 2026-02-14T06:00:00Z.");
    private readonly Option<string[]> refractionK = Ask.RefractionK();

    public WeatherBeamCommand(Terminal terminal) : base(
        "beam", "What the cloud of a model leaves of a sunbeam, from a lit place towards the sun.",
        "glowcast weather beam run.grib2 --from 46.0,7.0,2200 --azimuth 100 --altitude -0.7 --at 2026-02-14T06:00:00Z", terminal)
    {
        Arguments.Add(files);
        Takes(from, azimuth, altitude, at, refractionK);
    }

    protected override void Answer(Question asked, CancellationToken cancel)
    {
        var ridge = asked.Required(from, "latitude,longitude,height such as 46.0,7.0,2200", Place);
        var bearing = asked.Required(azimuth, "a true bearing in degrees such as 100", Written.Bearing);
        var sun = Angle.FromDegrees(asked.Number(altitude, -5, 90));
        var instant = asked.Required(at, "an instant such as 2026-02-14T06:00:00Z", TimeReader.Moment);
        var k = asked.Number(refractionK, -1, 0.9, SightModel.UsualRefractionK);
        var set = WeatherAsked.Read(asked, asked.Texts(files), files.Name, Terminal, cancel);
        asked.Faults.ThrowIfAny();

        var weather = new WeatherFiles(set!);
        var (beam, run, bracket) = weather.BeamTo(ridge, bearing, sun, instant, k) ?? throw NotReached(weather, ridge, instant);
        var answer = WeatherBeamAnswer.Of(beam, run, bracket, ridge, k);
        Reply(asked, answer, page => Write(page, answer));
    }

    private static Place Place(string text, string field)
    {
        var comma = text.LastIndexOf(',');
        if (comma < 0) throw new BadInputException(field, $"Must be latitude,longitude,height such as 46.0,7.0,2200; got '{Shortened.To80(text)}'.");
        var point = Written.Point(text[..comma], field);
        var metres = Written.Number(text[(comma + 1)..], field);
        return metres is >= -500 and <= 9000
            ? new Place(point, Length.FromMetres(metres))
            : throw new BadInputException(field, $"Must name a height from -500 to 9000 m; got {metres.ToString(CultureInfo.InvariantCulture)}.");
    }

    private BadInputException NotReached(WeatherFiles weather, Place ridge, Instant instant) => weather.CloudReach switch
    {
        null => new BadInputException(files.Name, "Have no cloud: take cloud cover, cloud water or relative humidity with temperature and height on levels of pressure, or the cover of low, middle and high cloud."),
        { } reach when instant < reach.Start || instant > reach.End => new BadInputException(at.Name, $"Must lie within the hours of the files, {Moments.Utc(reach.Start)} to {Moments.Utc(reach.End)}; got {Moments.Utc(instant)}."),
        _ => new BadInputException(from.Name, $"{ridge.Point} lies outside the area of the files."),
    };

    private static void Write(Page page, WeatherBeamAnswer answer)
    {
        page.Title(answer.Share >= 0.995 ? "No cloud in the beam, as the model has it" : $"{Say.Share(answer.Share)} of the beam is left, as the model has it");
        page.Facts(
            ("optical depth", $"{answer.OpticalDepth:0.00}"),
            ("between clouds", answer.ClearChance is { } clear ? Say.Share(clear) : null),
            ("worst", answer.Worst is { } worst ? $"bearing {worst.BearingDeg:0}°, {worst.DistanceKm:0} km away, at {worst.HeightM:0} m" : null),
            ("followed", $"{answer.EndsAtKm:0} km: {Why(answer.End)}"),
            ("run", $"{answer.Centre}, {answer.Run}"));
        if (answer.Crossings.Count > 0)
        {
            page.Table([">from", ">to", ">heights", ">optical depth", ">cover"], answer.Crossings.Select(crossing => (IReadOnlyList<string>)
                [$"{crossing.FromKm:0.0} km", $"{crossing.ToKm:0.0} km", $"{crossing.FromHeightM:0}–{crossing.ToHeightM:0} m", $"{crossing.OpticalDepth:0.00}", crossing.Cover is { } cover ? Say.Share(cover) : ""]));
        }
        page.List(answer.Cautions);
    }

    private static string Why(BeamEnd end) => end switch
    {
        BeamEnd.AboveCloud => "beyond it the beam is higher than any cloud",
        BeamEnd.Sea => "there it meets the level of the sea",
        BeamEnd.Files => "the files cover no more ground",
        BeamEnd.Levels => "the files have no level as high; cloud above it is not seen",
        _ => "no farther was asked",
    };
}
