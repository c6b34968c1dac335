using Glowcast.Engine.Capture;

namespace Glowcast.Engine.Take;

/// <summary>How the brightness of a set ran, from what neighbouring frames share.</summary>
/// <remarks>
/// docs/model.md, Take eq. 13: the right strip of one frame and the left strip of its neighbour show the same ground, so that
/// their difference, less the difference of the settings, is what the light changed by between the two. The sum over a row is
/// its drift; rows are joined by the frames above one another. A vignette darkens both strips alike and drops out.
/// </remarks>
/// <param name="FirstToLastStops">From the first frame to the last; positive where it brightens.</param>
/// <param name="SpreadStops">Of single steps about their mean: haze, thumbnails and clouds.</param>
/// <param name="Sweeps">The way each row was swept, in the order of shooting; rows of a single frame are left out.</param>
/// <param name="Steps">From frame to neighbour.</param>
public sealed record StripDrift(double FirstToLastStops, double SpreadStops, IReadOnlyList<RowSweep> Sweeps, IReadOnlyList<BrightnessStep> Steps)
{
    private const int LeastSteps = 2;
    private const double SurelyBetter = 1.25;

    /// <param name="rows">The frames of a set, row by row in the order they were shot, each frame once.</param>
    /// <param name="overlap">The share of a frame that its neighbour repeats.</param>
    /// <returns>Null where too few frames have a glance.</returns>
    internal static StripDrift? Of(IReadOnlyList<IReadOnlyList<SetFrame>> rows, double overlap)
    {
        var columns = Glance.ColumnsOf(overlap);
        var swept = rows.Select(row => Row(row, columns)).OfType<(RowSweep Sweep, List<BrightnessStep> Steps)>().ToList();
        var steps = swept.SelectMany(row => row.Steps).ToList();
        if (steps.Count < LeastSteps) return null;
        // The light runs on while the camera is moved to the next row: at the same rate as within the rows.
        var (drifted, overS) = (steps.Sum(step => step.Stops), steps.Sum(step => step.OverS));
        var wholeS = (rows[^1][^1].AfterFirst - rows[0][0].AfterFirst).TotalSeconds;
        var mean = steps.Average(step => step.Stops);
        return new StripDrift(
            overS > 0 ? drifted / overS * wholeS : drifted, Math.Sqrt(steps.Average(step => (step.Stops - mean) * (step.Stops - mean))),
            [.. swept.Select(row => row.Sweep)], steps);
    }

    // Either side of a frame may join on to the one before it; the better one does.
    private static (RowSweep Sweep, List<BrightnessStep> Steps)? Row(IReadOnlyList<SetFrame> row, int columns)
    {
        var pairs = row.Zip(row.Skip(1)).Where(pair =>
            Math.Abs(pair.First.Column - pair.Second.Column) == 1 && pair.First.Frame.Glance is not null && pair.Second.Frame.Glance is not null).ToList();
        if (pairs.Count == 0) return null;
        var rightwards = pairs.ConvertAll(pair => pair.First.Frame.Glance!.StripTo(pair.Second.Frame.Glance!, columns));
        var leftwards = pairs.ConvertAll(pair => pair.Second.Frame.Glance!.StripTo(pair.First.Frame.Glance!, columns));
        var (asRight, asLeft) = (rightwards.Sum(strip => strip.Mismatch), leftwards.Sum(strip => strip.Mismatch));
        var isRightwards = asRight <= asLeft;
        var stops = isRightwards ? rightwards.Select(strip => strip.Stops) : leftwards.Select(strip => -strip.Stops);
        var steps = pairs.Zip(stops, (pair, brighter) => new BrightnessStep(
            pair.Second, brighter + SettingStops(pair.First, pair.Second), (pair.Second.AfterFirst - pair.First.AfterFirst).TotalSeconds));
        var isSure = Math.Max(asRight, asLeft) > SurelyBetter * Math.Min(asRight, asLeft);
        return (new RowSweep(row[0].Row, isRightwards ? SweepDirection.LeftToRight : SweepDirection.RightToLeft, isSure), [.. steps]);
    }

    // A setting that lets in less light makes the picture darker, not the scene.
    private static double SettingStops(SetFrame before, SetFrame next) => next.Frame.Settings.ExposureStops - before.Frame.Settings.ExposureStops;
}

/// <summary>How the light changed from a frame to its neighbour.</summary>
/// <param name="Next">The later of the two.</param>
/// <param name="OverS">The time between them [s].</param>
public sealed record BrightnessStep(SetFrame Next, double Stops, double OverS);
