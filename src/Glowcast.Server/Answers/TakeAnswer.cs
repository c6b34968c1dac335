using Glowcast.Engine.Take;

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
    /// <param name="clock">Null where nothing tells it from true time.</param>
    public static TakeAnswer Of(SortedTake take, CameraClock? clock, OwnTimes? own, IEnumerable<Engine.Measures.Fault> skipped)
    {
        ArgumentNullException.ThrowIfNull(take);
        return new TakeAnswer(
            [.. take.Sets.Select(set => TakeSetAnswer.Of(set, clock))],
            [.. take.Loose.Select(loose => new LooseFrameAnswer(loose.Frame.Name, loose.Kind, loose.Reason))], take.WithoutTime,
            [.. skipped.Select(fault => new SkippedFileAnswer(fault.Field, fault.Message))],
            [.. take.Choices.Select(choice => new RepeatAnswer([.. choice.Sets.Select(set => set + 1)], choice.Better + 1, choice.Reason))],
            clock is null ? null : new CameraClockAnswer(clock.Source, clock.AheadOfUtc.TotalSeconds, clock.Spread?.TotalSeconds),
            own is null ? null : OwnTimesAnswer.Of(own), take.Cautions);
    }
}

/// <summary>One set of a take.</summary>
/// <param name="First">Name of the first file.</param>
/// <param name="Frames">How many files, those shot twice included.</param>
/// <param name="Columns">Frames in a row, spare frames included.</param>
/// <param name="Changed">What should have been locked and changed.</param>
/// <param name="DriftStops">Of the brightness from the first frame to the last, by what neighbours share; null where unknown.</param>
/// <param name="Confidence">That it begins and ends there, 0 to 1.</param>
/// <param name="Start">When the first frame was shot, UTC; null where the camera's clock is not known.</param>
public sealed record TakeSetAnswer(
    string First, string Last, int Rows, int Columns, int Frames, Wholeness Wholeness, IReadOnlyList<MissingFrameAnswer> Missing, IReadOnlyList<string> Doubled,
    IReadOnlyList<SettingChange> Changed, double? DriftStops, double Confidence, IReadOnlyList<string> Reasons, string? Marker, string? Start, string? End,
    double? StepS, double? RowStepS, double? LongestSideGapS, double? LongestVerticalGapS, double FirstToLastS, bool IsByHand, IReadOnlyList<string> Files)
{
    public static TakeSetAnswer Of(FoundSet set, CameraClock? clock)
    {
        ArgumentNullException.ThrowIfNull(set);
        var pace = set.Pace;
        return new TakeSetAnswer(
            set.First.Name, set.Last.Name, set.Rows, set.Columns, set.Frames.Count, set.Wholeness,
            [.. set.Missing.Select(missing => new MissingFrameAnswer(missing.Row + 1, missing.Column + 1, missing.Shot + 1, missing.After))],
            [.. set.Doubled.Select(frame => frame.Frame.Name)], set.Changed, set.Drift?.FirstToLastStops, set.Confidence, set.Reasons, set.Marker?.Name,
            Moments.Utc(clock?.At(set.First)), Moments.Utc(clock?.At(set.Last)), pace.Step?.TotalSeconds, pace.RowStep?.TotalSeconds,
            pace.LongestSideGap?.TotalSeconds, pace.LongestVerticalGap?.TotalSeconds, pace.FirstToLast.TotalSeconds, set.IsByHand,
            [.. set.Frames.Select(frame => frame.Frame.Name)]);
    }
}

/// <summary>Places count from 1; with a plan from the top and from the left, without in the order of shooting.</summary>
/// <param name="After">The last file before it; null where it would be the first.</param>
public sealed record MissingFrameAnswer(int Row, int Column, int Shot, string? After);

public sealed record LooseFrameAnswer(string File, LooseKind Kind, string Reason);

public sealed record SkippedFileAnswer(string File, string Reason);

/// <param name="Sets">Counted from 1.</param>
public sealed record RepeatAnswer(IReadOnlyList<int> Sets, int Better, string Reason);

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
