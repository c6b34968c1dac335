namespace Glowcast.Engine.Terrain;

/// <summary>A geodesic in the cells of a grid. Its pieces are made as the walk comes to them and kept until it is aimed anew.</summary>
internal sealed class CellPath(GridPosts posts)
{
    private readonly double westmostRad = double.DegreesToRadians(posts.WestDeg);
    private readonly double eastmostRad = double.DegreesToRadians(posts.EastDeg) + (posts.Projection is null ? double.DegreesToRadians(posts.ColumnStep) : 0);

    private CellArc[] pieces = new CellArc[4];
    private GeodesicArc last;
    private int made;

    public void Aim(double latitudeRad, double longitudeRad, double azimuthRad)
    {
        // Longitudes run on eastwards from the grid's western edge, across the date line too.
        if (longitudeRad < westmostRad - 1e-9) longitudeRad += Math.Tau;
        else if (longitudeRad > eastmostRad) longitudeRad -= Math.Tau;
        last = GeodesicArc.From(latitudeRad, longitudeRad, azimuthRad);
        pieces[0] = CellArc.Of(last, posts);
        made = 1;
    }

    public Cell At(double distanceM) => PieceAt(distanceM).At(distanceM);

    /// <summary>How far the piece reaches in which the path goes on from this distance [m].</summary>
    public double PieceEnd(double distanceM)
    {
        var endM = PieceAt(distanceM).EndM;
        return distanceM < endM ? endM : PieceAt(distanceM + 1).EndM;
    }

    /// <summary>The piece that holds a distance [m]; valid until the path is aimed anew or grows.</summary>
    public ref readonly CellArc PieceAt(double distanceM)
    {
        var i = 0;
        while (pieces[i].EndM < distanceM)
            if (++i == made) Lengthen();
        // Only now: making a piece may have moved them all.
        return ref pieces[i];
    }

    private void Lengthen()
    {
        if (made == pieces.Length) Array.Resize(ref pieces, 2 * made);
        last = last.Next();
        pieces[made++] = CellArc.Of(last, posts);
    }
}
