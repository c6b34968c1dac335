using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Showing;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;
using Glowcast.Server.Answers;
using NodaTime;

namespace Glowcast.Cli.Commands;

/// <summary>What a sounding tells of a sea of cloud: whether there will be one, and where its top is.</summary>
internal sealed class CloudCommand : AnswerCommand
{
    private readonly Argument<string[]> files = new("file")
    {
        Description = "A sounding: WMO FM 35 TEMP message, university text listing or its CSV, CSV with named columns.",
        Arity = ArgumentArity.ZeroOrMore,
    };

    private readonly Option<string[]> height = Ask.For("--lookout-height", "metres", "Of the lookout above the sea: is it above the deck, at its top, in it, or below?");
    private readonly Option<string[]> latitude = Ask.For("--latitude", "degrees", "Of the lookout, to tell how far away the profile was taken.");
    private readonly Option<string[]> longitude = Ask.For("--longitude", "degrees", "Of the lookout, with --latitude.");
    private readonly Option<string[]> at = Ask.For("--at", "instant", "What the answer is for, with Z or an offset, to tell how old the profile is then.");

    private readonly Option<string[]> station = Ask.For("--station", "file", "An archive of a station (IGRA 2, text or zip) in place of a sounding: how often a deck lay below a height, by month and hour.");
    private readonly Option<string[]> top = Ask.For("--top", "metres", "With --station: the height above the sea that decks are to lie below, such as the lookout's.");
    private readonly Option<string[]> elevation = Ask.For("--elevation", "metres", "With --station: of the station, from the archive's list; without it flights that do not say it go by their own heights.");
    private readonly Option<string[]> years = Ask.For("--years", "number", "With --station: how many of its last years count. Default 20.");

    public CloudCommand(Terminal terminal) : base(
        "cloud", "Whether a sounding has a sea of cloud, where its top is, and where a lookout stands.",
        "glowcast cloud sounding.txt --lookout-height 1450", terminal)
    {
        Arguments.Add(files);
        Takes(height, latitude, longitude, at, station, top, elevation, years);
    }

    protected override void Answer(Question asked, CancellationToken cancel)
    {
        if (asked.Has(station))
        {
            AnswerStation(asked, cancel);
            return;
        }
        foreach (var option in (Option[])[top, elevation, years]) asked.Refuse(option, "Means something with --station only.");
        var paths = asked.Texts(files);
        if (paths.Count != 1) asked.Faults.Add(files.Name, $"Give one sounding; got {paths.Count}.");
        var lookoutHeight = asked.NumberOrNone(height, -500, 9000);
        var place = ReadPlace(asked);
        var moment = asked.Has(at) ? asked.Optional(at, (text, field) => (Instant?)TimeReader.Moment(text, field)) : null;
        var profile = paths.Count == 1 ? asked.Try(() => SoundingText.Read(paths[0], files.Name)) : null;
        asked.Faults.ThrowIfAny();

        var answer = SoundingAnswer.Of(
            CloudDiagnosis.Of(profile!), ProfileReach.Of(profile!.Sounding, place, moment), lookoutHeight is { } metres ? Length.FromMetres(metres) : null);
        Reply(asked, answer, page => SoundingPage.Write(page, answer, profile!.Sounding));
    }

    private void AnswerStation(Question asked, CancellationToken cancel)
    {
        if (asked.Texts(files).Count > 0) asked.Faults.Add(files.Name, "Give a sounding or --station, and not both.");
        foreach (var option in (Option[])[height, latitude, longitude, at]) asked.Refuse(option, "Means something with a sounding only.");
        var path = asked.Text(station) ?? "";
        var (metres, stands, count) = (asked.Number(top, -500, 9000), asked.NumberOrNone(elevation, -500, 9000), asked.Number(years, 1, 200, StationClimate.UsualYears));
        using var file = asked.Faults.Any ? null : InputFile.Open(path, station.Name, "a station archive", asked.Faults);
        asked.Faults.ThrowIfAny();
        var climate = StationClimate.Read(file!, $"{station.Name} {path}", Length.FromMetres(metres), (int)count, stands is { } known ? Length.FromMetres(known) : StationList.Elevation(path, file!), cancel);
        var answer = StationAnswer.Of(climate);
        Reply(asked, answer, page => StationPage.Write(page, answer));
    }

    private GeoPoint? ReadPlace(Question asked)
    {
        if (!asked.Has(latitude) && !asked.Has(longitude)) return null;
        return GeoPoint.FromDegrees(asked.Number(latitude, -90, 90), asked.Number(longitude, -180, 180));
    }
}
