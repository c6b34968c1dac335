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

    public CloudCommand(Terminal terminal) : base(
        "cloud", "Whether a sounding has a sea of cloud, where its top is, and where a lookout stands.",
        "glowcast cloud sounding.txt --lookout-height 1450", terminal)
    {
        Arguments.Add(files);
        Takes(height, latitude, longitude, at);
    }

    protected override void Answer(Question asked, CancellationToken cancel)
    {
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

    private GeoPoint? ReadPlace(Question asked)
    {
        if (!asked.Has(latitude) && !asked.Has(longitude)) return null;
        return GeoPoint.FromDegrees(asked.Number(latitude, -90, 90), asked.Number(longitude, -180, 180));
    }
}
