using Glowcast.Engine.Capture;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Take;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Server.Answers;

/// <summary>A take, sorted into sets.</summary>
/// <param name="Loose">Frames in no set: markers and pictures by themselves.</param>
/// <param name="WithoutTime">Names of frames that do not say when they were shot.</param>
/// <param name="Skipped">Files that could not be read, and why.</param>
/// <param name="Repeats">Sets that show the same, and which of them is the better.</param>
public sealed record TakeAnswer(
    IReadOnlyList<TakeSetAnswer> Sets, IReadOnlyList<LooseFrameAnswer> Loose, IReadOnlyList<string> WithoutTime, IReadOnlyList<SkippedFileAnswer> Skipped,
    IReadOnlyList<RepeatAnswer> Repeats, CameraClockAnswer? Clock, OwnTimesAnswer? OwnTimes, IReadOnlyList<string> Cautions)
{
    /// <summary>Names of all frames with a time, in the order they were shot; camera by camera.</summary>
    public IReadOnlyList<string> InOrder { get; init; } = [];

    /// <summary>All sets, the best first: in the window of the forecast, stitchable, steady.</summary>
    public IReadOnlyList<RankedSetAnswer> Ranking { get; init; } = [];

    /// <summary>Frames of other sets that can stand in for missing ones.</summary>
    public IReadOnlyList<RescueAnswer> Rescues { get; init; } = [];

    /// <summary>What was not looked at, in words.</summary>
    public IReadOnlyList<string> NotLookedAt { get; init; } = [];

    /// <summary>Null unless asked for.</summary>
    public TakeComparedAnswer? Compared { get; init; }

    /// <summary>The id of the field note it is kept as; null unless asked for.</summary>
    public string? Note { get; init; }

    /// <summary>With the forecast of the plan's day beside it, and a caution where it is of another day.</summary>
    public TakeAnswer ComparedWith(SortedTake take, CameraClock clock, LightForecast forecast)
    {
        ArgumentNullException.ThrowIfNull(take);
        ArgumentNullException.ThrowIfNull(clock);
        ArgumentNullException.ThrowIfNull(forecast);
        var compared = TakeComparedAnswer.Of(take, clock, forecast);
        return RankedBy(compared, take).OnDay(forecast.Plan.Date, take, clock, forecast.Eye.Point, forecast.Plan.Lookout?.Zone);
    }

    /// <summary>With a caution where the error of the camera's clock was given and nothing tells how far that clock is from UTC.</summary>
    public TakeAnswer WithClockError(bool isGiven) => !isGiven || Clock is not null ? this : this with
    {
        Cautions = [.. Cautions, "The error of the camera's clock is of no use: nothing tells how far that clock is from UTC. Name a frame whose moment is known, or give a plan whose lookout has a time zone."],
    };

    /// <summary>With a caution where no set was shot on the day of the forecast.</summary>
    /// <param name="zone">Of the lookout; without one its days are reckoned by the sun.</param>
    internal TakeAnswer OnDay(LocalDate? day, SortedTake take, CameraClock clock, GeoPoint lookout, DateTimeZone? zone)
    {
        var shotOn = take.Sets.Select(set => clock.At(set.First)).OfType<Instant>().Select(start => LocalDay.ClockAt(start, lookout, zone).Date).ToList();
        return shotOn.Count == 0 || shotOn.Exists(date => date == day) ? this : this with
        {
            Cautions = [.. Cautions, $"No set of the take was shot on {Written(day ?? default)}, the day of the forecast; the first was on {Written(shotOn[0])}. Compare it with the forecast of its own day, or see whether the camera's clock is right."],
        };

        static string Written(LocalDate date) => LocalDatePattern.Iso.Format(date);
    }

    /// <summary>With the comparison in it, and its sets ranked by it.</summary>
    public TakeAnswer RankedBy(TakeComparedAnswer compared, SortedTake take)
    {
        ArgumentNullException.ThrowIfNull(compared);
        ArgumentNullException.ThrowIfNull(take);
        var within = compared.Sets.ToDictionary(set => set.Set - 1, set => set.IsWithin);
        var ranked = take.Ranked(set => within.TryGetValue(set, out var isWithin) ? isWithin : null);
        return this with { Compared = compared, Ranking = [.. ranked.Ranking.Select(RankedSetAnswer.Of)], Repeats = [.. ranked.Choices.Select(RepeatAnswer.Of)] };
    }

    /// <param name="clock">Null where nothing tells it from true time.</param>
    /// <param name="planned">Of the plan; null without one.</param>
    public static TakeAnswer Of(SortedTake take, CameraClock? clock, PlannedSet? planned, IEnumerable<Fault> skipped)
    {
        ArgumentNullException.ThrowIfNull(take);
        var settings = planned?.Layout.Settings;
        var own = settings is null ? null : Engine.Take.OwnTimes.Of(take, settings.Times, planned!.Clock.Order, settings.Bracket);
        return new TakeAnswer(
            [.. take.Sets.Select(set => TakeSetAnswer.Of(set, clock, planned))],
            [.. take.Loose.Select(loose => new LooseFrameAnswer(loose.Frame.Name, loose.Kind, loose.Reason))], take.WithoutTime,
            [.. skipped.Select(fault => new SkippedFileAnswer(fault.Field, fault.Message))],
            [.. take.Choices.Select(RepeatAnswer.Of)],
            clock is null ? null : new CameraClockAnswer(clock.Source, clock.AheadOfUtc.TotalSeconds, clock.Spread?.TotalSeconds),
            own is null ? null : OwnTimesAnswer.Of(own), take.Cautions)
        {
            InOrder = [.. take.InOrder.Select(frame => frame.Name)],
            Ranking = [.. take.Ranking.Select(RankedSetAnswer.Of)],
            Rescues = [.. take.Rescues.Select(RescueAnswer.Of)],
            NotLookedAt = ["Sharpness, and cloud that moves within the overlaps, were not looked at."],
        };
    }
}

/// <summary>One set of a take.</summary>
/// <param name="First">Name of the first file.</param>
/// <param name="Frames">How many files, those shot twice included.</param>
/// <param name="Columns">Frames in a row, spare frames included.</param>
/// <param name="Changed">What should have been locked and changed.</param>
/// <param name="DriftStops">Of the brightness from the first frame to the last, by what neighbours share; null where unknown.</param>
/// <param name="Confidence">That it begins and ends there, 0 to 1.</param>
/// <param name="Cloud">Null without a plan that says how fast and how far the cloud is.</param>
/// <param name="Start">When the first frame was shot, UTC; null where the camera's clock is not known.</param>
public sealed record TakeSetAnswer(
    string First, string Last, int Rows, int Columns, int Frames, Wholeness Wholeness, IReadOnlyList<MissingFrameAnswer> Missing, IReadOnlyList<string> Doubled,
    IReadOnlyList<SettingChange> Changed, double? DriftStops, double Confidence, IReadOnlyList<string> Reasons, string? Marker, string? Start, string? End,
    double? StepS, double? RowStepS, double? LongestSideGapS, double? LongestVerticalGapS, double FirstToLastS, bool IsByHand, IReadOnlyList<string> Files,
    SweptOrderAnswer Order, SetCloudAnswer? Cloud)
{
    /// <summary>Along its rows, then between them.</summary>
    public IReadOnlyList<JoinAnswer> Joins { get; init; } = [];

    /// <summary>All its places have a frame, and every frame joins on.</summary>
    public bool CanBeStitched { get; init; }

    /// <summary>Nothing speaks against its being whole but that none of its joins could be looked at.</summary>
    public bool IsCompleteByCount { get; init; }

    /// <summary>In what it is not as the plan has it; it is then not called whole.</summary>
    public IReadOnlyList<MismatchAnswer> Mismatches { get; init; } = [];

    public static TakeSetAnswer Of(FoundSet set, CameraClock? clock, PlannedSet? planned)
    {
        ArgumentNullException.ThrowIfNull(set);
        var pace = set.Pace;
        return new TakeSetAnswer(
            set.First.Name, set.Last.Name, set.Rows, set.Columns, set.Frames.Count, set.Wholeness,
            [.. set.Missing.Select(missing => new MissingFrameAnswer(missing.Row + 1, missing.Column + 1, missing.Shot + 1, missing.After))],
            [.. set.Doubled.Select(frame => frame.Frame.Name)], set.Changed, set.Drift?.FirstToLastStops, set.Confidence, set.Reasons, set.Marker?.Name,
            Moments.Utc(clock?.At(set.First)), Moments.Utc(clock?.At(set.Last)), pace.Step?.TotalSeconds, pace.RowStep?.TotalSeconds,
            pace.LongestSideGap?.TotalSeconds, pace.LongestVerticalGap?.TotalSeconds, pace.FirstToLast.TotalSeconds, set.IsByHand,
            [.. set.Frames.Select(frame => frame.Frame.Name)], SweptOrderAnswer.Of(set.Order),
            planned is null ? null : SetCloudAnswer.Of(SetCloud.Of(set, planned.Layout, planned.Plan)))
        {
            Joins = [.. set.Joins.Select(JoinAnswer.Of)],
            CanBeStitched = set.CanBeStitched,
            IsCompleteByCount = set.IsCompleteByCount,
            Mismatches = [.. set.Mismatches.Select(mismatch => new MismatchAnswer(mismatch.Kind, mismatch.Planned, mismatch.Found))],
        };
    }
}

/// <summary>Which way the rows were swept, as the pictures tell.</summary>
/// <param name="IsAsPlanned">Null without a plan, or where the pictures do not tell.</param>
public sealed record SweptOrderAnswer(SweptRows Rows, IReadOnlyList<RowSweepAnswer> Sweeps, bool? IsAsPlanned)
{
    public static SweptOrderAnswer Of(SweptOrder order)
    {
        ArgumentNullException.ThrowIfNull(order);
        return new SweptOrderAnswer(order.Rows, [.. order.Sweeps.Select(sweep => new RowSweepAnswer(sweep.Row + 1, sweep.Direction))], order.IsAsPlanned);
    }
}

/// <param name="Row">Counted from 1, as for missing frames.</param>
public sealed record RowSweepAnswer(int Row, SweepDirection Direction);

/// <summary>How far the plan's cloud moves across the picture in the longest times between neighbours, and what that does to a seam.</summary>
public sealed record SetCloudAnswer(double? SidewaysPx, DriftEffect? Sideways, double? BetweenRowsPx, DriftEffect? BetweenRows)
{
    /// <returns>Null where nothing is known of the cloud.</returns>
    public static SetCloudAnswer? Of(SetCloud? cloud) =>
        cloud is null ? null : new SetCloudAnswer(cloud.Sideways?.Pixels, cloud.Sideways?.Effect, cloud.BetweenRows?.Pixels, cloud.BetweenRows?.Effect);
}

/// <summary>Places count from 1; with a plan from the top and from the left, without in the order of shooting.</summary>
/// <param name="After">The last file before it; null where it would be the first.</param>
public sealed record MissingFrameAnswer(int Row, int Column, int Shot, string? After);

public sealed record LooseFrameAnswer(string File, LooseKind Kind, string Reason);

public sealed record SkippedFileAnswer(string File, string Reason);

/// <param name="Sets">Counted from 1.</param>
public sealed record RepeatAnswer(IReadOnlyList<int> Sets, int Better, string Reason)
{
    public static RepeatAnswer Of(RepeatChoice choice)
    {
        ArgumentNullException.ThrowIfNull(choice);
        return new RepeatAnswer([.. choice.Sets.Select(set => set + 1)], choice.Better + 1, choice.Reason);
    }
}

/// <param name="Set">Counted from 1.</param>
/// <param name="IsInWindow">All of it was shot in a window of the forecast; null where it was compared with none.</param>
/// <param name="DriftStops">Without its sign; null where unknown.</param>
/// <param name="Changes">Settings that changed.</param>
public sealed record RankedSetAnswer(int Set, bool? IsInWindow, bool CanBeStitched, Wholeness Wholeness, double? DriftStops, int Changes)
{
    public static RankedSetAnswer Of(RankedSet set)
    {
        ArgumentNullException.ThrowIfNull(set);
        return new RankedSetAnswer(set.Set + 1, set.IsInWindow, set.CanBeStitched, set.Wholeness, set.DriftStops, set.Changes);
    }
}

/// <param name="Set">That lacks a frame, counted from 1.</param>
/// <param name="From">The set that has it.</param>
/// <param name="File">It joins on to those beside the place.</param>
public sealed record RescueAnswer(int Set, int Row, int Column, int From, string File)
{
    public static RescueAnswer Of(Rescue rescue)
    {
        ArgumentNullException.ThrowIfNull(rescue);
        return new RescueAnswer(rescue.Set + 1, rescue.Missing.Row + 1, rescue.Missing.Column + 1, rescue.From + 1, rescue.Frame.Name);
    }
}

/// <summary>A join of a set, as its pictures show it.</summary>
/// <param name="Kind">How they lie; notLooked without previews.</param>
/// <param name="Overlap">The share of a frame that both show; null where the join is not seen.</param>
/// <param name="AsideShare">How far the second is off the line of the row (or of the column), in heights (widths) of a frame.</param>
/// <param name="Likeness">Of what both show: the correlation of their textures, at most 1; null where they were not looked at.</param>
/// <param name="BrighterStops">The second than the first, settings taken out.</param>
public sealed record JoinAnswer(string From, string To, bool BetweenRows, JoinKind Kind, bool IsSeen, double? Overlap, double? AsideShare, double? Likeness, double? BrighterStops)
{
    public static JoinAnswer Of(FoundJoin join)
    {
        ArgumentNullException.ThrowIfNull(join);
        var at = join.Join;
        return new JoinAnswer(
            join.From.Name, join.To.Name, join.BetweenRows, at.Kind, join.IsSeen, join.IsSeen ? at.Overlap : null, join.IsSeen ? (join.BetweenRows ? at.Across : at.Down) : null,
            join.IsLooked ? at.Likeness : null, join.BrighterStops);
    }
}

/// <param name="Planned">In the units of its kind: mm, 1 for portrait, long by short side, days, metres, frames, shares.</param>
public sealed record MismatchAnswer(MismatchKind Kind, double Planned, double Found);

/// <param name="AheadOfUtcS">What the clock showed, less UTC.</param>
/// <param name="SpreadS">One standard deviation; null where there is one witness only.</param>
public sealed record CameraClockAnswer(ClockSource Source, double AheadOfUtcS, double? SpreadS);

/// <summary>The user's own times, measured, under the names of a plan's set; null where the take does not tell.</summary>
/// <param name="Steps">How many steps it was measured from.</param>
public sealed record OwnTimesAnswer(double? RotateS, double? RowChangeS, double? MarkerS, double? RepeatGapS, int Steps, double StepSpreadS)
{
    public static OwnTimesAnswer Of(OwnTimes own)
    {
        ArgumentNullException.ThrowIfNull(own);
        return new OwnTimesAnswer(
            own.Rotate?.TotalSeconds, own.RowChange?.TotalSeconds, own.Marker?.TotalSeconds, own.RepeatGap?.TotalSeconds, own.Steps, own.StepSpread.TotalSeconds);
    }
}
