using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Showing;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;
using Glowcast.Server.Answers;
using NodaTime;

namespace Glowcast.Cli.Commands;

/// <summary>The air over a place as a model has it, judged for a sea of cloud.</summary>
internal sealed class WeatherProfileCommand : AnswerCommand
{
    private readonly Argument<string[]> files = WeatherAsked.Files();
    private readonly Option<string[]> latitude = Ask.Latitude();
    private readonly Option<string[]> longitude = Ask.Longitude();
    private readonly Option<string[]> at = Ask.For("--at", "instant", "With Z or an offset, such as 2026-02-14T06:00:00Z.");
    private readonly Option<string[]> height = Ask.For("--lookout-height", "metres", "Of the lookout above the sea: is it above the deck, at its top, in it, or below?");
    private readonly Option<string[]> humidity = Ask.For("--humidity", "water|producer", "What relative humidity refers to: water at any temperature (default), or, as the producer reckons, ice where it is cold.");

    public WeatherProfileCommand(Terminal terminal) : base(
        "profile", "The air over a place as a model has it, and whether it holds a sea of cloud.",
        "glowcast weather profile run.grib2 --latitude 46.1 --longitude 7.7 --at 2026-02-14T06:00:00Z", terminal)
    {
        Arguments.Add(files);
        Takes(latitude, longitude, at, height, humidity);
    }

    protected override void Answer(Question asked, CancellationToken cancel)
    {
        var point = GeoPoint.FromDegrees(asked.Number(latitude, -90, 90), asked.Number(longitude, -180, 360));
        var instant = asked.Required(at, "an instant such as 2026-02-14T06:00:00Z", TimeReader.Moment);
        var lookout = asked.NumberOrNone(height, -500, 9000);
        var rule = asked.Optional(humidity, (text, field) => text switch
        {
            "water" => HumidityRule.OverWater,
            "producer" => HumidityRule.ByProducer,
            _ => throw new BadInputException(field, $"Must be water or producer; got '{Shortened.To80(text)}'."),
        });
        var set = WeatherAsked.Read(asked, asked.Texts(files), files.Name, Terminal, cancel);
        asked.Faults.ThrowIfAny();

        var weather = new WeatherFiles(set!);
        var profile = weather.ProfileAt(point, instant, rule) ?? throw NotReached(weather, point, instant);
        var answer = WeatherProfileAnswer.Of(profile, lookout is { } metres ? Length.FromMetres(metres) : null);
        Reply(asked, answer, page => Write(page, answer));
    }

    private BadInputException NotReached(WeatherFiles weather, GeoPoint point, Instant instant) => weather.Reach switch
    {
        null => new BadInputException(files.Name, "Have no temperatures on several levels of pressure, which a profile needs. Take temperature, humidity and height from the ground to 400 hPa."),
        { } reach when instant < reach.Start || instant > reach.End => new BadInputException(at.Name, $"Must lie within the hours of the files, {Moments.Utc(reach.Start)} to {Moments.Utc(reach.End)}; got {Moments.Utc(instant)}."),
        _ => new BadInputException($"{latitude.Name}, {longitude.Name}", $"No run in the files reaches {point} with temperature, humidity and height on at least three levels."),
    };

    private static void Write(Page page, WeatherProfileAnswer answer)
    {
        page.Title($"A sea of cloud: {SoundingPage.LikelihoodWord(answer.Likelihood)}, as the model has it");
        page.Facts((IEnumerable<(string, string?)>)
        [
            ("run", $"{answer.Centre}, {answer.Run}: {answer.RunAgeHours:0.#} h before; hours of the files about it {(answer.StepHours == 0 ? "hit it" : $"{answer.StepHours:0.#} h apart")}"),
            ("ground", $"{answer.ModelGroundM:0} m in the model; fog in a deeper valley is not seen"),
            ("levels", $"up to {answer.WidestGapM:0} m apart in the lowest 2000 m{(answer.TooCoarse ? ": too coarse for the top of a deck" : "")}"),
            .. answer.Decks.Select(deck => ("deck", (string?)$"{deck.Kind.ToString().ToLowerInvariant()} from {deck.BaseM:0} m, its top at {SoundingPage.Top(deck)}")),
            ("deck", answer.Decks.Count == 0 ? "none in the model" : null),
            ("lookout", answer.Lookout?.Sentence),
        ]);
        page.Table(
            [">height", ">pressure", ">temperature", ">dew point", ">wind"],
            answer.Levels.Select(level => (IReadOnlyList<string>)
                [$"{level.HeightM:0} m", $"{level.PressureHPa:0.#} hPa", $"{level.TemperatureC:0.0} °C", $"{level.DewPointC:0.0} °C", level.WindKt is { } kt ? $"{level.WindFromDeg:0}° {kt:0} kt" : ""]));
        page.Heading("Why");
        page.List(answer.Reasons);
        page.Heading("Take care");
        page.List(answer.Cautions);
    }
}
