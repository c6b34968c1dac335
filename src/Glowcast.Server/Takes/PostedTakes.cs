using System.Text.Json;
using System.Text.Json.Serialization;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Take;
using Glowcast.Server.Api;
using Glowcast.Server.Kept;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Server.Takes;

/// <summary>Reads takes that are posted. All faults are said at once, under the field they belong to.</summary>
internal static class PostedTakes
{
    public const int MostFrames = 5000;
    private const int MostPixels = 1_000_000;
    private const int LongestText = 500;
    private const double LongestClockErrorS = 4e9;
    private const int FirstYear = 1900;
    private const int LastYear = 2200;

    private static readonly LocalDateTimePattern WrittenTime = LocalDateTimePattern.ExtendedIso;
    private static readonly OffsetPattern WrittenOffset = OffsetPattern.CreateWithInvariantCulture("+HH:mm");

    private static readonly JsonSerializerOptions Strict = new(JsonSerializerDefaults.Web)
    {
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        RespectNullableAnnotations = true,
        RespectRequiredConstructorParameters = true,
        AllowDuplicateProperties = false,
        NumberHandling = JsonNumberHandling.Strict,
    };

    /// <exception cref="BadInputException">It is no JSON of this shape.</exception>
    public static async Task<PostedTake> ReadAsync(HttpRequest request, CancellationToken cancel)
    {
        using var body = await request.ParseJsonAsync(cancel);
        if (body.RootElement.ValueKind != JsonValueKind.Object) throw new BadInputException("body", "Must be a JSON object in braces.");
        if (!body.RootElement.TryGetProperty("frames", out _)) throw new BadInputException("frames", "Is missing; list the frames of the take.");
        var take = Shaped(body.RootElement);
        var faults = new Faults();
        RefuseNulls(take.Frames, "frames", faults);
        RefuseNulls(take.Borders?.Sets ?? [], "borders.sets", faults);
        RefuseNulls(take.Borders?.Loose ?? [], "borders.loose", faults);
        faults.ThrowIfAny();
        return take;
    }

    private static PostedTake Shaped(JsonElement body)
    {
        try
        {
            return body.Deserialize<PostedTake>(Strict)!;
        }
        catch (JsonException broken)
        {
            throw new BadInputException(
                broken.Path is { Length: > 2 } path ? path[2..] : "body", "Is not known, of the wrong kind, or lacks a field it needs; /openapi/v1.json describes a take.");
        }
    }

    // A list's own type does not keep null out of it.
    private static void RefuseNulls<T>(IReadOnlyList<T> items, string field, Faults faults) where T : class
    {
        for (var i = 0; i < items.Count; i++)
            if (items[i] is null) faults.Add($"{field}[{i}]", "Must not be null; leave it out.");
    }

    /// <summary>The set of its plan; null without one, and after a fault.</summary>
    public static PlannedSet? ReadPlan(this PostedTake take, NamedSounding sounding, Faults faults)
    {
        if (take.Plan is not { ValueKind: not JsonValueKind.Null } plan) return null;
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

    public static IReadOnlyList<ShotFrame> ReadFrames(this PostedTake take, Faults faults)
    {
        var posted = take.Frames;
        if (posted.Count > MostFrames) throw new BadInputException("frames", $"Are {posted.Count}, more than can be sorted here ({MostFrames}); glowcast take has no such limit.");
        foreach (var twice in posted.GroupBy(frame => frame.Name).Where(same => same.Count() > 1))
            faults.Add("frames", $"Name '{Shortened.To80(twice.Key)}' {twice.Count()} times; each frame needs a name of its own.");
        return [.. posted.Select((frame, i) => FrameOf(frame, $"frames[{i}]", faults))];
    }

    /// <summary>The camera's clock, by what the take says of it; null where nothing tells.</summary>
    /// <param name="zone">Of the lookout.</param>
    public static CameraClock? ReadClock(this PostedTake take, IReadOnlyList<ShotFrame> frames, DateTimeZone? zone, Faults faults)
    {
        if (take.ClockErrorS is not null && take.KnownFrame is not null) faults.Add("clockErrorS", "Cannot stand beside knownFrame: either the error is given, or a frame to tell it by.");
        var errorS = take.ClockErrorS is { } ahead ? faults.InRange(ahead, "clockErrorS", -LongestClockErrorS, LongestClockErrorS) : (double?)null;
        if (take.KnownFrame is not { } known) return CameraClock.Of(frames, zone, errorS is { } seconds ? Duration.FromSeconds(seconds) : null);
        var frame = frames.FirstOrDefault(frame => frame.Name == known.Name);
        if (frame is null) faults.Add("knownFrame.name", $"Is no frame of the take; got '{Shortened.To80(known.Name)}'.");
        try
        {
            var at = TimeReader.Moment(known.ShotAt, "knownFrame.shotAt");
            return frame is null ? null : CameraClock.Of(frame, at);
        }
        catch (BadInputException bad)
        {
            foreach (var fault in bad.Faults) faults.Add(fault.Field.StartsWith("knownFrame", StringComparison.Ordinal) ? fault.Field : "knownFrame.name", fault.Message);
        }
        return null;
    }

    private static ShotFrame FrameOf(PostedFrame posted, string field, Faults faults)
    {
        double? Positive(double? value, string name, double most) => value is null ? null : faults.Positive(value, $"{field}.{name}", most);
        var taken = Parsed(posted.Taken, WrittenTime, $"{field}.taken", "a local time such as 2026-02-14T06:45:09.07", faults);
        if (taken is { Year: < FirstYear or > LastYear }) faults.Add($"{field}.taken", $"Must lie in the years {FirstYear} to {LastYear}; got '{Shortened.To80(posted.Taken!)}'.");
        var gpsTime = Parsed(posted.GpsTime, InstantPattern.ExtendedIso, $"{field}.gpsTime", "an instant such as 2026-02-14T11:45:08Z", faults);
        if (gpsTime?.InUtc().Year is < FirstYear or > LastYear) faults.Add($"{field}.gpsTime", $"Must lie in the years {FirstYear} to {LastYear}; got '{Shortened.To80(posted.GpsTime!)}'.");
        if (posted.Glance is { } parts && (parts.Count != Glance.Columns * Glance.Rows || !parts.All(float.IsFinite)))
            faults.Add($"{field}.glance", $"Must be {Glance.Columns * Glance.Rows} numbers, none beyond 3e38; got {parts.Count}.");
        foreach (var (pixels, name) in new[] { (posted.PixelsWide, "pixelsWide"), (posted.PixelsHigh, "pixelsHigh") })
            if (pixels is < 1 or > MostPixels) faults.Add($"{field}.{name}", $"Must be a whole number from 1 to {MostPixels}; got {pixels}.");
        foreach (var (text, name) in new[] { (posted.Name, "name"), (posted.Camera, "camera"), (posted.WhiteBalance, "whiteBalance") })
            if (text?.Length > LongestText) faults.Add($"{field}.{name}", $"Must have at most {LongestText} characters; got {text.Length}.");
        if (posted.Name.Length == 0) faults.Add($"{field}.name", "Must not be empty.");
        if (posted.Lie is < 1 or > 8) faults.Add($"{field}.lie", $"Must be a whole number from 1 to 8; got {posted.Lie}.");
        return new ShotFrame(posted.Name)
        {
            Camera = posted.Camera ?? "",
            Taken = taken,
            HasSubSeconds = posted.Taken?.Contains('.', StringComparison.Ordinal) == true,
            Offset = Parsed(posted.OffsetFromUtc, WrittenOffset, $"{field}.offsetFromUtc", "an offset such as -05:00", faults),
            GpsTime = gpsTime,
            Settings = new ShotSettings
            {
                Exposure = Positive(posted.ExposureS, "exposureS", 100_000) is { } seconds ? Duration.FromSeconds(seconds) : null,
                Aperture = Positive(posted.Aperture, "aperture", 1000),
                Iso = Positive(posted.Iso, "iso", 1e9),
                FocalLength = Positive(posted.FocalLengthMm, "focalLengthMm", 100_000) is { } mm ? Length.FromMillimetres(mm) : null,
                FocusDistance = Positive(posted.FocusDistanceM, "focusDistanceM", 1e9) is { } metres ? Length.FromMetres(metres) : null,
                WhiteBalance = posted.WhiteBalance,
                Lie = posted.Lie,
                PixelsWide = posted.PixelsWide,
                PixelsHigh = posted.PixelsHigh,
            },
            Glance = posted.Glance is { } stops && !faults.Any ? new Glance(stops) : null,
        };
    }

    private static T? Parsed<T>(string? text, IPattern<T> pattern, string field, string right, Faults faults) where T : struct
    {
        if (text is null) return null;
        var parsed = pattern.Parse(text);
        if (parsed.Success) return parsed.Value;
        faults.Add(field, $"Must be {right}; got '{Shortened.To80(text)}'.");
        return null;
    }
}
