using System.CommandLine;
using Glowcast.Cli.Asking;
using Glowcast.Cli.Showing;
using Glowcast.Cli.Takes;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Take;
using Glowcast.Engine.Terrain;
using Glowcast.Server.Answers;
using NodaTime;

namespace Glowcast.Cli.Commands;

/// <summary>Sorts what was shot into sets, and says which of them are whole.</summary>
internal sealed class TakeCommand : AnswerCommand
{
    private const double LongestClockErrorS = 4e9;

    private readonly Argument<string[]> folder = new("folder") { Description = "Holds the take; it is only read.", Arity = ArgumentArity.ZeroOrMore };
    private readonly Option<string[]> plan = Ask.Plan();
    private readonly Option<string[]> borders = Ask.For("--borders", "file", "Borders moved by hand. Without it, those saved beside the sheet.");
    private readonly Option<string[]> clockError = Ask.For("--clock-error", "seconds", "How far the camera's clock was ahead of the right time.");
    private readonly Option<string[]> knownFrame = Ask.For("--known-frame", "name", "A frame whose time is known; with --shot-at.");
    private readonly Option<string[]> shotAt = Ask.For("--shot-at", "instant", "When the known frame was shot, with Z or an offset.");
    private readonly Option<string[]> zone = Ask.TimeZone();
    private readonly Option<string[]> lists = Ask.For("--lists", "folder", "Write lists of the files of each set: text, CSV and JSON.");
    private readonly Option<string[]> sheet = Ask.For("--sheet", "file", "Write a contact sheet as HTML, on which borders can be moved.");
    private readonly Option<string[]> sortInto = Ask.For("--sort-into", "folder", "Put the files of each set into a folder of its own there.");
    private readonly Option<bool> compare = new("--compare") { Description = "Work out the forecast of the plan's day too, and compare." };
    private readonly Option<string[]> by = Ask.For("--by", "copy|link", "Whether by copies or by hard links. Default copy.");

    public TakeCommand(Terminal terminal) : base(
        "take", "Sort the frames of a folder into sets, and say which are whole.", "glowcast take DCIM/100 --plan plan.json --sheet sheet.html", terminal)
    {
        Arguments.Add(folder);
        Takes(plan, borders, clockError, knownFrame, shotAt, zone, lists, sheet, sortInto, by, compare);
    }

    protected override void Answer(Question asked, CancellationToken cancel)
    {
        var isCompared = asked.Flag(compare);
        var planFile = asked.Optional(plan, PlanFile.Open);
        var intended = planFile is null ? null : asked.Try(() => planFile.Read(isCompared ? PlanNeeds.Forecast : PlanNeeds.Gear));
        if (isCompared && !asked.Has(plan)) asked.Faults.Add(compare.Name, $"Needs a plan; give {plan.Name}.");
        var reach = new GridReading { Around = intended?.Lookout?.Point, FillHoles = intended is { FillHoles: true } };
        var grid = isCompared && planFile is not null ? asked.Try(() => GridFiles.Read(planFile.GridPaths, "grids", reach)) : null;
        var asLinks = asked.Optional(by, (text, field) => text is "copy" or "link" ? text : throw new BadInputException(field, $"Must be copy or link; got '{Shortened.To80(text)}'.")) == "link";
        var hand = ReadBorders(asked);
        var (error, known, at) = (asked.NumberOrNone(clockError, -LongestClockErrorS, LongestClockErrorS), asked.Text(knownFrame), asked.Optional(shotAt, TimeReader.Moment));
        if (asked.Has(knownFrame) != asked.Has(shotAt)) asked.Faults.Add(knownFrame.Name, $"Needs {shotAt.Name}, and that needs it.");
        if (error is not null && known is not null) asked.Faults.Add(clockError.Name, $"Cannot stand beside {knownFrame.Name}: either the error is given, or a frame to tell it by.");
        var timeZone = asked.Optional(zone, TimeReader.Zone) ?? intended?.Lookout?.Zone;
        var path = OneFolder(asked);
        foreach (var (option, isFolder) in new[] { (lists, true), (sheet, false), (sortInto, true) })
            if (asked.Text(option) is { } target) OutputPlace.Check(path, target, isFolder, option.Name, asked.Faults);
        var found = path is null ? default : asked.Try(() => TakeFolder.Read(path, folder.Name));
        asked.Faults.ThrowIfAny();
        var files = found.Files;

        var reading = Read(files!, cancel);
        var set = intended is null ? null : PlannedSet.Of(intended);
        var clock = known is null
            ? CameraClock.Of(reading.Frames, timeZone, error is { } seconds ? Duration.FromSeconds(seconds) : null)
            : CameraClock.Of(reading.Frames.FirstOrDefault(frame => frame.Name == known) ?? throw new BadInputException(knownFrame.Name, $"Is no frame of the take; got '{Shortened.To80(known)}'."), at, reading.Frames, timeZone);
        var take = Sort(reading, set, clock, hand, cancel);
        var answer = TakeAnswer.Of(take, clock, set, [.. found.PassedOver, .. reading.Skipped]).WithClockError(error is not null);
        if (isCompared) answer = Compared(answer, take, clock, intended!, grid!, cancel);
        HandOver(asked, take, answer, files!.ToDictionary(file => file.Name), asLinks, cancel);
        Reply(asked, answer, page => TakePage.Write(page, answer, reading.Frames.Count));
    }

    private TakeReading Read(IReadOnlyList<TakeFile> files, CancellationToken cancel)
    {
        using var progress = new ProgressLine(Terminal, "reading the frames");
        var reading = TakeReading.Of(files, progress, cancel);
        return reading.Frames.Count > 0 || files.Count == 0 ? reading : throw new BadInputException(
            folder.Name, $"None of its {files.Count} pictures can be read; the first, {reading.Skipped[0].Field}: {reading.Skipped[0].Message}");
    }

    private SortedTake Sort(TakeReading reading, PlannedSet? set, CameraClock? clock, HandBorders hand, CancellationToken cancel)
    {
        using var progress = new ProgressLine(Terminal, "sorting");
        return TakeSorter.Sort(reading.Frames, set is null ? null : TakePlan.Of(set), clock, hand, progress, cancel);
    }

    private TakeAnswer Compared(TakeAnswer answer, SortedTake take, CameraClock? clock, Plan intended, ElevationGrid grid, CancellationToken cancel) => clock is null
        ? throw new BadInputException(compare.Name, NoClock(take))
        : answer.ComparedWith(take, clock, ForecastWork.Run(Terminal, intended, grid, cancel));

    private string NoClock(SortedTake take) => take.Sets.Count + take.Loose.Count == 0
        ? "Needs frames that say when they were shot (EXIF DateTimeOriginal); none of these does."
        : $"Needs to know the camera's clock: give {zone.Name}, {knownFrame.Name}, or a time zone in the plan's lookout.";

    private void HandOver(Question asked, SortedTake take, TakeAnswer answer, Dictionary<string, TakeFile> files, bool asLinks, CancellationToken cancel)
    {
        using var progress = new ProgressLine(Terminal, "handing over");
        if (asked.Text(lists) is { } listsIn) Written(lists, () => TakeLists.Write(listsIn, take, answer, files));
        if (asked.Text(sheet) is { } sheetFile) Written(sheet, () => TakeSheet.Write(sheetFile, take, files, progress, cancel));
        if (asked.Text(sortInto) is { } sorted) SetFolders.Write(sorted, take, files, asLinks, sortInto.Name, progress, cancel);
    }

    private static void Written(Option option, Action write)
    {
        try
        {
            write();
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException)
        {
            throw new BadInputException(option.Name, $"Cannot be written: {FileRefusal.Because(refused)}; name another.");
        }
    }

    private string? OneFolder(Question asked)
    {
        var given = asked.Texts(folder);
        if (given is [{ Length: > 0 } path]) return path;
        asked.Faults.Add(folder.Name, given.Count switch
        {
            0 => "Is missing; name the folder of the take.",
            1 => "Is empty; name the folder of the take.",
            _ => $"Is given {given.Count} times; give it once.",
        });
        return null;
    }

    private HandBorders ReadBorders(Question asked)
    {
        if (asked.Has(borders)) return asked.Optional(borders, BordersFile.Read) ?? HandBorders.None;
        var beside = asked.Text(sheet) is { Length: > 0 } path ? TakeSheet.BordersOf(path) : null;
        return beside is not null && File.Exists(beside) ? asked.Try(() => BordersFile.Read(beside, beside)) ?? HandBorders.None : HandBorders.None;
    }
}
