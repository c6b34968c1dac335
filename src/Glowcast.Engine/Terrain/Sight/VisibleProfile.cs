using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>What is visible on one bearing as pieces of unbroken ground: where each begins behind what hides the ground before it, and where it ends in a crest,
/// found between the steps of the sweep.</summary>
/// <remarks>Where a piece begins the sight line that grazes the crest before it meets the ground (bisection), where it ends the ground stands highest (golden
/// section). So neither hangs on where the steps fall. docs/model.md, T8. Mutable, for one thread.</remarks>
internal sealed class VisibleProfile(ElevationGrid grid, SightModel model, Place eye)
{
    private const int Halvings = 40;
    private static readonly double Golden = (Math.Sqrt(5) - 1) / 2;

    private readonly CellPath path = new(grid.Posts);
    private readonly double eyeM = eye.Height.Metres;
    private readonly double drop = model.DropPerMetre;
    private readonly int lastColumn = grid.Posts.Columns - 1;
    private readonly int lastRow = grid.Posts.Rows - 1;

    /// <returns>Outwards; each piece begins no lower than the one before ends, and its places rise outwards. At least two places a piece.</returns>
    public List<VisibleSample[]> PiecesOf(VisibleColumn column)
    {
        path.Aim(eye.Point.Latitude.Radians, eye.Point.Longitude.Radians, column.Bearing.Radians);
        var (pieces, stepM, highestRad) = (new List<VisibleSample[]>(), column.StepM, double.NegativeInfinity);
        List<VisibleSample> samples = [.. column.Samples];
        for (var first = 0; first < samples.Count;)
        {
            var end = first + 1;
            while (end < samples.Count && samples[end].DistanceM - samples[end - 1].DistanceM < 1.5 * stepM) end++;
            var piece = PieceOf(samples.GetRange(first, end - first), stepM, highestRad);
            first = end;
            if (piece.Count < 2) continue;
            highestRad = piece[^1].AltitudeRad;
            pieces.Add([.. piece]);
        }
        return pieces;
    }

    private List<VisibleSample> PieceOf(List<VisibleSample> run, double stepM, double hiddenRad)
    {
        var piece = new List<VisibleSample>(run.Count + 2);
        var crest = CrestNear(run[^1].DistanceM, stepM);
        var beforeM = run[0].DistanceM - stepM;
        foreach (var sample in run)
        {
            if (sample.DistanceM >= crest.DistanceM || sample.AltitudeRad >= crest.AltitudeRad) break;
            if (sample.AltitudeRad <= hiddenRad) beforeM = sample.DistanceM;
            else
            {
                if (piece.Count == 0 && hiddenRad > double.NegativeInfinity) AddBeginning(piece, beforeM, sample.DistanceM, hiddenRad);
                piece.Add(sample);
            }
        }
        if (crest.AltitudeRad > hiddenRad)
        {
            if (piece.Count == 0) AddBeginning(piece, hiddenRad > double.NegativeInfinity ? beforeM : crest.DistanceM - stepM, crest.DistanceM, hiddenRad);
            if (piece.Count == 0 || crest.AltitudeRad > piece[^1].AltitudeRad) piece.Add(crest);
        }
        return piece;
    }

    /// <summary>Where the ground rises above what hides it.</summary>
    private void AddBeginning(List<VisibleSample> piece, double hiddenM, double seenM, double hiddenRad)
    {
        hiddenM = Math.Max(hiddenM, 1);
        if (double.IsNegativeInfinity(hiddenRad))
        {
            if (double.IsFinite(At(hiddenM).AltitudeRad)) piece.Add(At(hiddenM));
            return;
        }
        for (var i = 0; i < Halvings; i++)
        {
            var middleM = (hiddenM + seenM) / 2;
            if (At(middleM).AltitudeRad > hiddenRad) seenM = middleM;
            else hiddenM = middleM;
        }
        piece.Add(At(seenM));
    }

    /// <summary>The highest ground within a step.</summary>
    private VisibleSample CrestNear(double aboutM, double stepM)
    {
        var (fromM, toM) = (Math.Max(aboutM - stepM, stepM), aboutM + stepM);
        var (a, b) = (At(toM - (Golden * (toM - fromM))), At(fromM + (Golden * (toM - fromM))));
        for (var i = 0; i < Halvings; i++)
        {
            if (a.AltitudeRad >= b.AltitudeRad)
            {
                (toM, b) = (b.DistanceM, a);
                a = At(toM - (Golden * (toM - fromM)));
            }
            else
            {
                (fromM, a) = (a.DistanceM, b);
                b = At(fromM + (Golden * (toM - fromM)));
            }
        }
        var (found, about) = (a.AltitudeRad >= b.AltitudeRad ? a : b, At(aboutM));
        return found.AltitudeRad > about.AltitudeRad ? found : about;
    }

    /// <summary>The ground at a distance; at −∞ where the grid has none.</summary>
    private VisibleSample At(double distanceM)
    {
        var cell = path.At(distanceM);
        var isInside = cell.X >= 0 && cell.X <= lastColumn && cell.Y >= 0 && cell.Y <= lastRow;
        var heightM = isInside ? grid.HeightAtCells(cell.X, cell.Y) : double.NaN;
        return double.IsNaN(heightM)
            ? new VisibleSample(distanceM, heightM, double.NegativeInfinity)
            : new VisibleSample(distanceM, heightM, Math.Atan((heightM - eyeM) / distanceM) - (distanceM * drop));
    }
}
