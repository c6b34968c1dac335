using Glowcast.Engine.Light;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>How far the brightness of the lit ridge drifts while a set is shot, and by which steps of exposure between its rows
/// to follow it. Of several sets, each of which is stitched by itself, the one that drifts most.</summary>
/// <remarks>docs/model.md, F9 and F10. Positive where the ridge brightens.</remarks>
/// <param name="FirstToLastStops">From the first exposure of the set to its last.</param>
/// <param name="ToleranceStops">What the plan allows.</param>
/// <param name="Rows">In the order of shooting.</param>
/// <param name="LeftStops">The spread that is left between any two frames when the rows are stepped.</param>
public sealed record ExposureDrift(double FirstToLastStops, double ToleranceStops, IReadOnlyList<RowExposure> Rows, double LeftStops)
{
    private const double StepsPerStop = 3;

    public bool IsWithinTolerance => Math.Abs(FirstToLastStops) <= ToleranceStops;

    /// <summary>Stepping the rows brings the set within tolerance.</summary>
    public bool StepsSuffice => LeftStops <= ToleranceStops;

    /// <summary>What is wrong and what to do, a sentence each; empty within tolerance.</summary>
    public IReadOnlyList<string> Advice => IsWithinTolerance ? [] : [Problem, .. StepPlan];

    private string Problem =>
        $"The ridge {(FirstToLastStops > 0 ? "brightens" : "darkens")} by {Math.Abs(FirstToLastStops):0.##} stops from the first frame of a set to its last; {ToleranceStops:0.##} are tolerated.";

    private IEnumerable<string> StepPlan
    {
        get
        {
            foreach (var (before, row) in Rows.Zip(Rows.Skip(1)))
            {
                var thirds = row.Thirds - before.Thirds;
                if (thirds != 0)
                    yield return $"Before row {row.Row + 1} {(thirds < 0 ? "shorten" : "lengthen")} the exposure by {Math.Abs(thirds)}/3 stop.";
            }
            if (!StepsSuffice)
                yield return $"{LeftStops:0.##} stops are then left between frames of one row, which only fewer frames, quicker steps or a higher sun can lessen.";
            else
                yield return $"{LeftStops:0.##} stops are then left, within tolerance.";
        }
    }

    /// <summary>Of the set that drifts most.</summary>
    internal static double FirstToLast(RidgeBrightness ridge, SetSequence sets, Instant start) =>
        sets.Sets.Select(set => Between(ridge, start, set[0], set[^1])).MaxBy(stops => Math.Abs(stops));

    internal static ExposureDrift Of(RidgeBrightness ridge, SetSequence sets, Instant start, double toleranceStops)
    {
        var set = sets.Sets.MaxBy(shots => Math.Abs(Between(ridge, start, shots[0], shots[^1])))!;
        var drift = Between(ridge, start, set[0], set[^1]);
        var rows = set.GroupBy(shot => shot.Exposure.Row).Select(row => RowOf([.. row])).ToList();
        var left = set.Select(shot => Between(ridge, start, set[0], shot) + (rows.Find(row => row.Row == shot.Exposure.Row)!.Thirds / StepsPerStop)).ToList();
        return new ExposureDrift(drift, toleranceStops, rows, left.Max() - left.Min());

        // A row is as bright as it is halfway between its first and its last frame; so is the first row, which sets the exposure.
        RowExposure RowOf(List<PlannedShot> row)
        {
            var firstRow = set.Where(shot => shot.Exposure.Row == set[0].Exposure.Row).ToList();
            var brighter = (Between(ridge, start, set[0], row[0]) + Between(ridge, start, set[0], row[^1]) - Between(ridge, start, set[0], firstRow[^1])) / 2;
            return new RowExposure(row[0].Exposure.Row, brighter, Math.Abs(drift) <= toleranceStops ? 0 : -(int)Math.Round(StepsPerStop * brighter));
        }
    }

    private static double Between(RidgeBrightness ridge, Instant start, PlannedShot first, PlannedShot second) =>
        ridge.StopsFrom(start + Duration.FromSeconds(first.OpensS), start + Duration.FromSeconds(second.OpensS));
}

/// <summary>How a row is exposed.</summary>
/// <param name="Row">0 is the topmost.</param>
/// <param name="BrighterStops">How much brighter the ridge is than when the first row was shot.</param>
/// <param name="Thirds">Longer exposure than the first row's, in thirds of a stop; negative for shorter; 0 where the set stays
/// within tolerance without.</param>
public sealed record RowExposure(int Row, double BrighterStops, int Thirds);
