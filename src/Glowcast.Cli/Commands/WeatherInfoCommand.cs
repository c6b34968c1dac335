using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Showing;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;
using Glowcast.Server.Answers;

namespace Glowcast.Cli.Commands;

/// <summary>What files of weather models hold.</summary>
internal sealed class WeatherInfoCommand : AnswerCommand
{
    /// <summary>Greater files are searched by their headers alone, unless the user wants it otherwise.</summary>
    private const long DecodedUpTo = 64L << 20;

    private readonly Argument<string[]> files = WeatherAsked.Files();
    private readonly Option<bool> decode = new("--decode") { Description = "Decode every field, to see that none is damaged and how many values are missing. Files up to 64 MiB in all are decoded anyway." };
    private readonly Option<bool> headers = new("--headers") { Description = "Read headers only." };

    public WeatherInfoCommand(Terminal terminal) : base("info", "Which fields files of weather models hold.", "glowcast weather info run.grib2", terminal)
    {
        Arguments.Add(files);
        Takes(decode, headers);
    }

    protected override void Answer(Question asked, CancellationToken cancel)
    {
        var paths = asked.Texts(files);
        var set = WeatherAsked.Read(asked, paths, files.Name, Terminal, cancel);
        asked.Faults.ThrowIfAny();
        var decodes = asked.Flag(decode) || (!asked.Flag(headers) && paths.Sum(path => new FileInfo(path).Length) <= DecodedUpTo);
        var (messages, damaged) = Listed(set!, decodes, cancel);
        var answer = new WeatherInfoAnswer(
            messages, [.. WeatherRun.Of(set!).Select(WeatherRunAnswer.Of)], [.. set!.Refused.Concat(damaged).Select(WeatherRefusal.Of)], decodes);
        Reply(asked, answer, page => Write(page, answer));
    }

    /// <exception cref="BadInputException">No field can be decoded.</exception>
    private (List<WeatherFieldAnswer> Messages, List<Fault> Damaged) Listed(GribSet set, bool decodes, CancellationToken cancel)
    {
        var (messages, damaged) = (new List<WeatherFieldAnswer>(), new List<Fault>());
        using var progress = new ProgressLine(Terminal, "decoding");
        foreach (var field in set.Fields)
        {
            cancel.ThrowIfCancellationRequested();
            try
            {
                messages.Add(WeatherFieldAnswer.Of(field, decodes ? field.Values().Missing : field.MissingByHeader));
            }
            catch (BadInputException bad)
            {
                damaged.AddRange(bad.Faults);
            }
            progress.Report((double)(messages.Count + damaged.Count) / set.Fields.Count);
        }
        if (messages.Count == 0) throw new BadInputException(damaged);
        foreach (var fault in damaged) Terminal.Tell($"{fault}");
        return (messages, damaged);
    }

    private static void Write(Page page, WeatherInfoAnswer answer)
    {
        page.Title(answer.Messages.Count == 1 ? "1 field" : $"{answer.Messages.Count} fields");
        page.Facts(answer.Runs.Select(run => ("run", (string?)$"{run.Centre}, {run.Reference}, hours {run.FirstHours:0.##} to {run.LastHours:0.##}: {run.Fields} fields of single hours")));
        page.Table(
            [">message", "what", "level", ">hours", "grid", "packing", ">missing"],
            answer.Messages.Select(message => (IReadOnlyList<string>)
            [
                message.Submessage > 1 ? $"{message.Message}.{message.Submessage}" : $"{message.Message}", message.Units.Length > 0 ? $"{message.Name} [{message.Units}]" : message.Name,
                $"{message.LevelName}{(message.Level is { } level and not 0 ? $" {level:0.##}" : "")}",
                message.StartHours == message.EndHours ? $"{message.StartHours:0.##}" : $"{message.StartHours:0.##}–{message.EndHours:0.##}",
                $"{message.GridName} {message.Ni} x {message.Nj}", message.PackingName, message.Missing is { } missing ? $"{missing}" : "?",
            ]));
        if (!answer.Checked) page.Paragraph("Only headers were read; --decode sees whether the data are whole.");
    }
}
