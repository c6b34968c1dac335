namespace Glowcast.Engine.Terrain;

/// <summary>A geodesic in the cells of a grid. Its pieces are made as the walk comes to them and kept until it is aimed anew.</summary>
internal sealed class CellPath(GridPosts posts)
{
    private readonly double northRad = double.DegreesToRadians(posts.NorthDeg);
    private readonly double westRad = double.DegreesToRadians(posts.WestDeg);
    private readonly double rowsPerRad = 1 / double.DegreesToRadians(posts.LatitudeStepDeg);
    private readonly double columnsPerRad = 1 / double.DegreesToRadians(posts.LongitudeStepDeg);
    private readonly double eastmostRad = double.DegreesToRadians(posts.EastDeg + posts.LongitudeStepDeg);

    private GeodesicArc[] pieces = new GeodesicArc[4];
    private int made;

    public void Aim(double latitudeRad, double longitudeRad, double azimuthRad)
    {
        // Longitudes run on eastwards from the grid's western edge, across the date line too.
        if (longitudeRad < westRad - 1e-9) longitudeRad += Math.Tau;
        else if (longitudeRad > eastmostRad) longitudeRad -= Math.Tau;
        pieces[0] = GeodesicArc.From(latitudeRad, longitudeRad, azimuthRad);
        made = 1;
    }

    public Cell At(double distanceM)
    {
        ref readonly var piece = ref pieces[PieceOf(distanceM)];
        var (latitude, longitude) = piece.At(distanceM);
        return new Cell((longitude - westRad) * columnsPerRad, (northRad - latitude) * rowsPerRad);
    }

    /// <summary>How far the piece reaches in which the path goes on from this distance [m].</summary>
    public double PieceEnd(double distanceM)
    {
        var piece = PieceOf(distanceM);
        return distanceM < pieces[piece].EndM ? pieces[piece].EndM : pieces[PieceOf(distanceM + 1)].EndM;
    }

    private int PieceOf(double distanceM)
    {
        var i = 0;
        while (pieces[i].EndM < distanceM)
            if (++i == made) Lengthen();
        return i;
    }

    private void Lengthen()
    {
        if (made == pieces.Length) Array.Resize(ref pieces, 2 * made);
        pieces[made] = pieces[made - 1].Next();
        made++;
    }
}
