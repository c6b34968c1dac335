using System.Runtime.Intrinsics;

namespace Glowcast.Engine.Terrain;

/// <summary>A piece of a geodesic as a cubic in distance, in the cells of a grid.</summary>
/// <remarks>In latitude and longitude it is the piece itself, in other units. On the plane of a projection it is the cubic
/// through four points of the piece; a geodesic bends there on the scale of the earth's radius, so that over the 40 km of
/// the longest piece the cubic stays within a tenth of a millimetre.</remarks>
internal readonly struct CellArc
{
    private readonly double x0, x1, x2, x3, y0, y1, y2, y3;

    private readonly double startM, perMetre;

    private CellArc(double startM, double endM, ReadOnlySpan<Cell> thirds)
    {
        (this.startM, EndM, perMetre) = (startM, endM, 1 / (endM - startM));
        (x0, x1, x2, x3) = Through(thirds[0].X, thirds[1].X, thirds[2].X, thirds[3].X);
        (y0, y1, y2, y3) = Through(thirds[0].Y, thirds[1].Y, thirds[2].Y, thirds[3].Y);
    }

    public double EndM { get; }

    public static CellArc Of(in GeodesicArc arc, GridPosts posts)
    {
        Span<Cell> thirds = stackalloc Cell[4];
        for (var i = 0; i < thirds.Length; i++)
        {
            var (latitude, longitude) = arc.At(arc.StartM + (i * arc.LengthM / 3));
            var (latitudeDeg, longitudeDeg) = (double.RadiansToDegrees(latitude), double.RadiansToDegrees(longitude));
            var (x, y) = posts.Projection is null
                ? ((longitudeDeg - posts.Left) / posts.ColumnStep, (posts.Top - latitudeDeg) / posts.RowStep)
                : posts.ProjectedCells(latitudeDeg, longitudeDeg);
            thirds[i] = new Cell(x, y);
        }
        return new CellArc(arc.StartM, arc.EndM, thirds);
    }

    public Cell At(double distanceM)
    {
        var t = (distanceM - startM) * perMetre;
        return new Cell(x0 + (t * (x1 + (t * (x2 + (t * x3))))), y0 + (t * (y1 + (t * (y2 + (t * y3))))));
    }

    /// <summary>Four places at once, to the last bit as one by one.</summary>
    public (Vector256<double> X, Vector256<double> Y) At(Vector256<double> distanceM)
    {
        var t = (distanceM - Vector256.Create(startM)) * perMetre;
        return (
            Vector256.Create(x0) + (t * (Vector256.Create(x1) + (t * (Vector256.Create(x2) + (t * x3))))),
            Vector256.Create(y0) + (t * (Vector256.Create(y1) + (t * (Vector256.Create(y2) + (t * y3))))));
    }

    // The cubic through values at 0, 1/3, 2/3 and 1.
    private static (double C0, double C1, double C2, double C3) Through(double a, double b, double c, double d) =>
        (a, (-5.5 * a) + (9 * b) - (4.5 * c) + d, (9 * a) - (22.5 * b) + (18 * c) - (4.5 * d), 4.5 * (d - a + (3 * (b - c))));
}
