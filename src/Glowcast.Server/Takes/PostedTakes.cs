using System.Text.Json;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Take;
using Glowcast.Server.Kept;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Server.Takes;

/// <summary>A take to be sorted, as it was read; after a fault its values stand for nothing.</summary>
/// <param name="Set">Of its plan; null without one.</param>
/// <param name="Forecast">The address of the forecast to compare it with.</param>
/// <param name="ErrorS">How far the camera's clock was ahead.</param>
/// <param name="Known">A frame whose moment is known; null where none is named, or what is named is none.</param>
internal sealed record ReadTake(
    PlannedSet? Set, IReadOnlyList<ShotFrame> Frames, HandBorders Borders, string? Forecast, bool Keep, double? ErrorS, (ShotFrame Frame, Instant ShotAt)? Known);

/// <summary>Reads takes that are posted. All faults are said at once, under the field they belong to.</summary>
internal static class PostedTakes
{
    public const int MostFrames = 5000;
    private const int MostFaults = 200;
    private const int MostPixels = 1_000_000;
    private const int LongestText = 500;
    private const double LongestClockErrorS = 4e9;
    private const double BrightestStops = 3e38;
    private const int FirstYear = 1900;
    private const int LastYear = 2200;

    private static readonly LocalDateTimePattern WrittenTime = LocalDateTimePattern.ExtendedIso;
    private static readonly OffsetPattern WrittenOffset = OffsetPattern.CreateWithInvariantCulture("+HH:mm");

    /// <param name="sounding">That its plan names.</param>
    public static ReadTake Read(JsonElement body, NamedSounding sounding, Faults faults)
    {
        var fields = new JsonFields(body, "", faults, "body");
        var frames = ReadFrames(fields, faults);
        var take = new ReadTake(
            ReadPlan(fields, sounding, faults), frames, ReadBorders(fields.Object("borders")), fields.Text("forecast"), fields.Flag("keep"),
            fields.NumberOrNone("clockErrorS", -LongestClockErrorS, LongestClockErrorS), ReadKnown(fields.Object("knownFrame"), frames));
        if (fields.Has("clockErrorS") && fields.Has("knownFrame")) fields.Add("clockErrorS", "Cannot stand beside knownFrame: either the error is given, or a frame to tell it by.");
        fields.RefuseUnknown();
        return take;
    }

    /// <summary>The camera's clock, by what the take says of it; null where nothing tells.</summary>
    /// <param name="zone">Of the lookout.</param>
    public static CameraClock? ReadClock(this ReadTake take, DateTimeZone? zone, Faults faults)
    {
        if (take.Known is not { } known) return CameraClock.Of(take.Frames, zone, take.ErrorS is { } seconds ? Duration.FromSeconds(seconds) : null);
        try
        {
            return CameraClock.Of(known.Frame, known.ShotAt, take.Frames, zone);
        }
        catch (BadInputException bad)
        {
            faults.Add("knownFrame.name", bad.Faults[0].Message);
            return null;
        }
    }

    private static PlannedSet? ReadPlan(JsonFields fields, NamedSounding sounding, Faults faults)
    {
        if (fields.Raw("plan") is not { } plan) return null;
        try
        {
            return PlannedSet.Of(PlanReader.Read(plan, PlanNeeds.Gear, sounding.Read));
        }
        catch (BadInputException bad)
        {
            foreach (var fault in bad.Faults) faults.Add(fault.Field == "plan" ? "plan" : $"plan.{fault.Field}", fault.Message);
            return null;
        }
    }

    private static HandBorders ReadBorders(JsonFields fields)
    {
        if (!fields.IsPresent) return HandBorders.None;
        foreach (var list in (string[])["sets", "loose"])
        {
            if (!fields.Has(list)) fields.Add(list, "Is missing; give a list, which may be empty.");
            if (fields.Count(list) is not (> MostFrames and var count)) continue;
            fields.Add(list, $"Are {count}, more than there can be frames ({MostFrames}).");
            return HandBorders.None;
        }
        var sets = fields.Objects("sets").Select(set =>
        {
            var ends = (set.Text("first", "the name of its first frame"), set.Text("last", "the name of its last frame"));
            set.RefuseUnknown();
            return ends;
        }).ToList();
        var loose = fields.Texts("loose").ToHashSet(StringComparer.Ordinal);
        fields.RefuseUnknown();
        return new HandBorders(sets, loose);
    }

    private static (ShotFrame Frame, Instant ShotAt)? ReadKnown(JsonFields fields, IReadOnlyList<ShotFrame> frames)
    {
        if (!fields.IsPresent) return null;
        var (name, shotAt) = (fields.Text("name", "the name of a frame of the take"), fields.Text("shotAt", "an instant such as 2026-02-14T11:45:08Z"));
        fields.RefuseUnknown();
        var frame = frames.FirstOrDefault(frame => frame.Name == name);
        if (frame is null && name.Length > 0) fields.Add("name", $"Is no frame of the take; got '{Shortened.To80(name)}'.");
        try
        {
            if (shotAt.Length > 0 && TimeReader.Moment(shotAt, "shotAt") is var at && frame is not null) return (frame, at);
        }
        catch (BadInputException bad)
        {
            fields.Add("shotAt", bad.Faults[0].Message);
        }
        return null;
    }

    private static List<ShotFrame> ReadFrames(JsonFields fields, Faults faults)
    {
        var frames = new List<ShotFrame>();
        if (!fields.Has("frames")) fields.Add("frames", "Is missing; list the frames of the take.");
        if (fields.Count("frames") is > MostFrames and var count) fields.Add("frames", $"Are {count}, more than can be sorted here ({MostFrames}); glowcast take has no such limit.");
        else
        {
            foreach (var frame in fields.Objects("frames"))
            {
                if (faults.Found.Count > MostFaults)
                {
                    fields.Add("frames", "Have more faults than are said here; put these right first.");
                    break;
                }
                frames.Add(FrameOf(frame, faults));
            }
        }
        foreach (var twice in frames.Where(frame => frame.Name.Length > 0).GroupBy(frame => frame.Name).Where(same => same.Count() > 1).Take(MostFaults))
            fields.Add("frames", $"Name '{Shortened.To80(twice.Key)}' {twice.Count()} times; each frame needs a name of its own.");
        return frames;
    }

    private static ShotFrame FrameOf(JsonFields fields, Faults faults)
    {
        var name = fields.Text("name", "the name of the file");
        var taken = Written(fields, "taken", WrittenTime, "a local time such as 2026-02-14T06:45:09.07", time => time.Year);
        var (exposureS, focalLengthMm, focusDistanceM) = (fields.PositiveOrNone("exposureS", 100_000), fields.PositiveOrNone("focalLengthMm", 100_000), fields.PositiveOrNone("focusDistanceM", 1e9));
        var glance = fields.Numbers("glance", Glance.Columns * Glance.Rows, BrightestStops);
        foreach (var text in (string[])["name", "camera", "whiteBalance"])
            if (fields.Raw(text) is { ValueKind: JsonValueKind.String } given && given.GetString()!.Length is > LongestText and var length) fields.Add(text, $"Must have at most {LongestText} characters; got {length}.");
        var frame = new ShotFrame(name)
        {
            Camera = fields.Text("camera") ?? "",
            Taken = taken,
            HasSubSeconds = taken is not null && fields.Text("taken")!.Contains('.', StringComparison.Ordinal),
            Offset = Written(fields, "offsetFromUtc", WrittenOffset, "an offset such as -05:00"),
            GpsTime = Written(fields, "gpsTime", InstantPattern.ExtendedIso, "an instant such as 2026-02-14T11:45:08Z", instant => instant.InUtc().Year),
            Settings = new ShotSettings
            {
                Exposure = exposureS is { } seconds ? Duration.FromSeconds(seconds) : null,
                Aperture = fields.PositiveOrNone("aperture", 1000),
                Iso = fields.PositiveOrNone("iso", 1e9),
                FocalLength = focalLengthMm is { } mm ? Length.FromMillimetres(mm) : null,
                FocusDistance = focusDistanceM is { } metres ? Length.FromMetres(metres) : null,
                WhiteBalance = fields.Text("whiteBalance"),
                Lie = fields.WholeOrNone("lie", 1, 8),
                PixelsWide = fields.WholeOrNone("pixelsWide", 1, MostPixels),
                PixelsHigh = fields.WholeOrNone("pixelsHigh", 1, MostPixels),
            },
            Glance = glance is null || faults.Any ? null : new Glance([.. glance.Select(stops => (float)stops)]),
            View = ReadView(fields.Object("view")),
        };
        fields.RefuseUnknown();
        return frame;
    }

    private static View? ReadView(JsonFields fields)
    {
        if (!fields.IsPresent) return null;
        var (wide, high) = (fields.WholeOrNone("wide", View.LeastSide, View.LongSide), fields.WholeOrNone("high", View.LeastSide, View.LongSide));
        var text = fields.Text("gray", "the pixels in base64");
        fields.RefuseUnknown();
        if (wide is null) fields.Add("wide", "Is missing, or no number of pixels.");
        if (high is null) fields.Add("high", "Is missing, or no number of pixels.");
        if (wide is not { } w || high is not { } h || text.Length == 0) return null;
        var gray = new byte[w * h];
        if (Convert.TryFromBase64String(text, gray, out var bytes) && bytes == gray.Length) return new View(w, h, gray);
        fields.Add("gray", $"Must be {gray.Length} bytes in base64, one for each of {w} x {h} pixels.");
        return null;
    }

    /// <param name="yearOf">Left out where there is no year to it.</param>
    private static T? Written<T>(JsonFields fields, string name, IPattern<T> pattern, string right, Func<T, int>? yearOf = null) where T : struct
    {
        if (fields.Text(name) is not { } text) return null;
        var parsed = pattern.Parse(text);
        if (!parsed.Success) fields.Add(name, $"Must be {right}; got '{Shortened.To80(text)}'.");
        else if (yearOf?.Invoke(parsed.Value) is < FirstYear or > LastYear) fields.Add(name, $"Must lie in the years {FirstYear} to {LastYear}; got '{Shortened.To80(text)}'.");
        else return parsed.Value;
        return null;
    }
}
