namespace Glowcast.Engine.Terrain;

/// <summary>One ray over a grid, from an eye outwards at a true azimuth: finds the greatest angle of the ground on it.</summary>
/// <remarks>
/// The answer is exact for the bilinear surface. Stretches of the ray are halved as long as the highest ground in their
/// box could still beat the best angle so far; what remains is walked cell by cell, where the ground is a parabola in
/// distance and its greatest angle has a closed form. The ray is a geodesic, not a straight line in the grid.
/// Mutable, to be aimed again and again by one thread.
/// </remarks>
internal sealed class SightRay(ElevationGrid grid, SightModel model)
{
    private const int CellsWalked = 8;

    // A stretch is walked as a straight line once it bends by no more than this share of a cell.
    private const double MostBulge = 1e-4;
    private const double FirstStretchM = 1000;

    private readonly double drop = model.DropPerMetre;
    private readonly MaximumPyramid maxima = grid.Maxima;

    // Nothing on the ray or past the grid's edge is higher than this.
    private readonly double highestM = Math.Max(
        grid.Relief.Highest?.Metres ?? double.NegativeInfinity, model.BeyondGrid.HighestM(grid));

    private readonly int lastColumn = grid.Posts.Columns - 1;
    private readonly int lastRow = grid.Posts.Rows - 1;
    private readonly CellPath path = new(grid.Posts);

    private double eyeM;
    private double bestTan;
    private double ceilingTan;
    private double bestSlope;
    private double bestM;

    /// <summary>Where the ray leaves the grid [m]; NaN as long as the last search had no need to go there.</summary>
    public double EdgeM { get; private set; }

    public void Aim(double latitudeRad, double longitudeRad, double eyeHeightM, double azimuthRad)
    {
        path.Aim(latitudeRad, longitudeRad, azimuthRad);
        eyeM = eyeHeightM;
    }

    /// <summary>The greatest angle of the ground between two distances on the ray.</summary>
    /// <param name="floorRad">Nothing at or below this angle is of interest; the search is the quicker for it.</param>
    /// <param name="ceilingRad">Any angle above this one is answer enough.</param>
    /// <param name="likelyM">A distance at which high ground is expected, tried first; NaN for none.</param>
    public RayMaximum Highest(
        double fromM, double toM = double.PositiveInfinity, double floorRad = -Math.PI / 2, double ceilingRad = Math.PI / 2, double likelyM = double.NaN)
    {
        bestTan = floorRad <= -Math.PI / 2 ? double.NegativeInfinity : Math.Tan(floorRad);
        ceilingTan = ceilingRad >= Math.PI / 2 ? double.PositiveInfinity : Math.Tan(ceilingRad);
        (bestM, EdgeM) = (double.NaN, double.NaN);
        if (likelyM >= fromM && likelyM <= toM) Try(likelyM);
        SearchOutwards(fromM, toM);
        return double.IsNaN(bestM) ? RayMaximum.None : new RayMaximum(Math.Atan(bestSlope) - (bestM * drop), bestM);
    }

    private void SearchOutwards(double fromM, double toM)
    {
        var startM = fromM;
        var start = path.At(startM);
        if (!Inside(start))
        {
            EdgeM = startM;
            return;
        }
        while (startM < toM && bestTan < ceilingTan && CouldBeat(highestM, startM, double.PositiveInfinity))
        {
            var endM = Math.Min(Math.Min(startM + Math.Max(startM, FirstStretchM), toM), path.PieceEnd(startM));
            var end = path.At(endM);
            var leaves = !Inside(end);
            if (leaves)
            {
                (endM, end) = Exit(startM, start, endM);
                EdgeM = endM;
            }
            if (endM > startM) Search(startM, start, endM, end);
            if (leaves) return;
            (startM, start) = (endM, end);
        }
    }

    private void Search(double startM, Cell start, double endM, Cell end)
    {
        if (bestTan >= ceilingTan) return;
        var middleM = (startM + endM) / 2;
        var middle = path.At(middleM);
        // A geodesic bends in the grid; its greatest distance from the chord is near the middle.
        var bulgeX = 1.01 * Math.Abs(middle.X - ((start.X + end.X) / 2));
        var bulgeY = 1.01 * Math.Abs(middle.Y - ((start.Y + end.Y) / 2));
        var (left, right) = (Math.Min(start.X, end.X) - bulgeX, Math.Max(start.X, end.X) + bulgeX);
        var (top, bottom) = (Math.Min(start.Y, end.Y) - bulgeY, Math.Max(start.Y, end.Y) + bulgeY);
        var bound = maxima.UpperBound(Floor(left), Floor(top), Floor(right), Floor(bottom));
        if (!CouldBeat(bound, startM, endM)) return;
        if (Math.Max(right - left, bottom - top) <= CellsWalked && Math.Max(bulgeX, bulgeY) < MostBulge)
        {
            Walk(startM, start, endM, end);
            return;
        }
        Search(startM, start, middleM, middle);
        Search(middleM, middle, endM, end);
    }

    /// <summary>False when no ground of this height or less, in [startM, endM], stands above the best angle so far.</summary>
    // Ground of one height above the eye has the tangent above/s − s·drop, which falls with s where it stands higher than the eye, and
    // else is greatest at s = √(−above/drop).
    private bool CouldBeat(double heightM, double startM, double endM)
    {
        var above = heightM - eyeM;
        if (above > 0) return above > (bestTan + (startM * drop)) * startM;
        if (!(above > (bestTan + (startM * drop)) * endM)) return false;
        if (drop <= 0) return true;
        var s = Math.Clamp(Math.Sqrt(-above / drop), startM, endM);
        return above > (bestTan + (s * drop)) * s;
    }

    /// <summary>Cell by cell along the straight stretch; steps by whole cells, so that no rounding can hold it up.</summary>
    private void Walk(double startM, Cell start, double endM, Cell end)
    {
        var (dx, dy) = (end.X - start.X, end.Y - start.Y);
        var (column, row) = (Floor(start.X), Floor(start.Y));
        var (stepX, stepY) = (dx > 0 ? 1 : -1, dy > 0 ? 1 : -1);
        var (perX, perY, aheadX, aheadY) = (1 / dx, 1 / dy, dx > 0 ? 1 : 0, dy > 0 ? 1 : 0);
        var t = 0.0;
        while (t < 1)
        {
            var crossX = dx == 0 ? double.PositiveInfinity : (column + aheadX - start.X) * perX;
            var crossY = dy == 0 ? double.PositiveInfinity : (row + aheadY - start.Y) * perY;
            var next = Math.Min(Math.Min(crossX, crossY), 1);
            if (next > t)
            {
                SearchCell(column, row, startM, endM - startM, start, dx, dy, t, next);
                t = next;
            }
            if (crossX <= crossY) column += stepX;
            else row += stepY;
        }
    }

    private void SearchCell(int column, int row, double startM, double lengthM, Cell start, double dx, double dy, double t0, double t1)
    {
        // On the outermost posts the cell inside the grid serves.
        column = column == lastColumn ? column - 1 : column;
        row = row == lastRow ? row - 1 : row;
        if ((uint)column >= (uint)lastColumn || (uint)row >= (uint)lastRow) return;
        if (!CouldBeat(maxima.OfCell(column, row), startM + (t0 * lengthM), startM + (t1 * lengthM))) return;
        (double nw, double ne, double sw, double se) = grid.Corners(column, row);
        var twist = nw - ne - sw + se;

        // Height along the ray: a + b·t + c·t², t from 0 at startM to 1 at startM + lengthM.
        var (u, v) = (start.X - column, start.Y - row);
        var a = nw + (u * (ne - nw)) + (v * (sw - nw)) + (u * v * twist);
        var b = (dx * (ne - nw)) + (dy * (sw - nw)) + (((u * dy) + (v * dx)) * twist);
        var c = dx * dy * twist;
        Consider(a + (t0 * (b + (t0 * c))), startM + (t0 * lengthM));
        Consider(a + (t1 * (b + (t1 * c))), startM + (t1 * lengthM));

        // In metres of distance s the tangent is A/s + B + (C − drop)·s, greatest at s = √(A/(C − drop)) where both are negative.
        var cs = c / (lengthM * lengthM);
        var bs = (b / lengthM) - (2 * cs * startM);
        var above = a - (startM * (bs + (startM * cs))) - eyeM;
        if (above >= 0 || cs >= drop) return;
        var s = Math.Sqrt(above / (cs - drop));
        var t = (s - startM) / lengthM;
        if (t > t0 && t < t1) Consider(a + (t * (b + (t * c))), s);
    }

    private void Consider(double heightM, double distanceM)
    {
        var slope = (heightM - eyeM) / distanceM;
        var tan = slope - (distanceM * drop * (1 + (slope * slope)));
        if (!(tan > bestTan)) return;
        (bestTan, bestSlope, bestM) = (tan, slope, distanceM);
    }

    private void Try(double distanceM)
    {
        var cell = path.At(distanceM);
        if (Inside(cell)) Consider(grid.HeightAtCells(cell.X, cell.Y), distanceM);
    }

    /// <summary>Where the ray crosses the outermost posts, between a distance inside and one outside, to a millimetre.</summary>
    private (double Metres, Cell Cell) Exit(double insideM, Cell inside, double outsideM)
    {
        while (outsideM - insideM > 1e-3)
        {
            var middleM = (insideM + outsideM) / 2;
            var middle = path.At(middleM);
            if (Inside(middle)) (insideM, inside) = (middleM, middle);
            else outsideM = middleM;
        }
        return (insideM, inside);
    }

    private bool Inside(Cell cell) => cell.X >= 0 && cell.X <= lastColumn && cell.Y >= 0 && cell.Y <= lastRow;

    private static int Floor(double value) => (int)Math.Floor(value);
}
