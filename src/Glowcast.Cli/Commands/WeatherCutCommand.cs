using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Takes;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Weather;
using NodaTime;

namespace Glowcast.Cli.Commands;

/// <summary>The part of weather files that a plan needs, as a small file.</summary>
internal sealed class WeatherCutCommand : AnswerCommand
{
    private static readonly Duration Before = Duration.FromHours(6);
    private static readonly Duration After = Duration.FromHours(3);
    private static readonly Duration SunStep = Duration.FromMinutes(10);

    private readonly Argument<string[]> files = WeatherAsked.Files();
    private readonly Option<string[]> plan = Ask.Plan();
    private readonly Option<string[]> to = Ask.For("--out", "file", "The file to write, such as small.grib2.");

    public WeatherCutCommand(Terminal terminal) : base(
        "cut", "Keep of weather files what a plan needs: its day, the air about its lookout, and the cloud towards the sun.",
        "glowcast weather cut run.grib2 --plan plan.json --out small.grib2", terminal)
    {
        Arguments.Add(files);
        Takes(plan, to);
    }

    protected override void Answer(Question asked, CancellationToken cancel)
    {
        var paths = asked.Texts(files);
        var intended = asked.Required(plan, "the file of a plan", (text, field) => PlanFile.Open(text, field).Read(PlanNeeds.Light, readsWeather: false));
        var path = asked.Required(to, "a file such as small.grib2", (text, _) => text);
        _ = OutputFile.Of(asked, to);
        if (path is not null && paths.Any(source => Path.GetFullPath(source) == Path.GetFullPath(path))) asked.Faults.Add(to.Name, "Is one of the files to cut; name another.");
        var set = WeatherAsked.Read(asked, paths, files.Name, Terminal, cancel);
        asked.Faults.ThrowIfAny();

        var lookout = intended!.Lookout!.Point;
        var day = LocalDay.Of(intended.Date!.Value, lookout, intended.Lookout.Zone);
        var kept = Written(path!, write => WeatherCut.Write(set!, lookout, new Interval(day.Start - Before, day.End + After), LowSun(day, lookout), write, cancel));
        var answer = new { Out = path, Fields = kept, Bytes = new FileInfo(path!).Length };
        Reply(asked, answer, page => page.Line($"{path} holds {kept} fields, {answer.Bytes / 1000.0:0} kB."));
    }

    /// <exception cref="BadInputException">It cannot be written, or nothing is left to write.</exception>
    private int Written(string path, Func<Action<byte[]>, int> cut)
    {
        var kept = 0;
        try
        {
            WholeFile.Write(path, file =>
            {
                kept = cut(message => file.Write(message));
                if (kept == 0) throw new BadInputException(files.Name, "Have no field of air or cloud for the day and place of the plan. 'glowcast weather info' lists what they have.");
            });
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException or NotSupportedException)
        {
            throw new BadInputException(to.Name, $"Cannot be written: {FileRefusal.Because(refused)}; name another file.");
        }
        return kept;
    }

    /// <summary>Bearings of the sun while it stands low: higher up its beam leaves the cloud nearby.</summary>
    private static List<Azimuth> LowSun(Interval day, GeoPoint lookout)
    {
        var bearings = new List<Azimuth>();
        for (var at = day.Start; at < day.End; at += SunStep)
        {
            var sun = Sun.At(at).SeenFrom(new Place(lookout, Length.Zero));
            if (sun.AirlessAltitude.Degrees is >= -4 and <= 25) bearings.Add(sun.Azimuth);
        }
        return bearings;
    }
}
