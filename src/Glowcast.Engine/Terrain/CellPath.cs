namespace Glowcast.Engine.Terrain;

/// <summary>A geodesic in the cells of a grid. Its pieces are made as the walk comes to them and kept until it is aimed anew.</summary>
internal sealed class CellPath(GridPosts posts)
{
    private readonly double northRad = double.DegreesToRadians(posts.NorthDeg);
    private readonly double westRad = double.DegreesToRadians(posts.WestDeg);
    private readonly double rowsPerRad = 1 / double.DegreesToRadians(posts.LatitudeStepDeg);
    private readonly double columnsPerRad = 1 / double.DegreesToRadians(posts.LongitudeStepDeg);
    private readonly double eastmostRad = double.DegreesToRadians(posts.EastDeg + posts.LongitudeStepDeg);
    private readonly List<GeodesicArc> pieces = [];

    public void Aim(double latitudeRad, double longitudeRad, double azimuthRad)
    {
        // Longitudes run on eastwards from the grid's western edge, across the date line too.
        if (longitudeRad < westRad - 1e-9) longitudeRad += Math.Tau;
        else if (longitudeRad > eastmostRad) longitudeRad -= Math.Tau;
        pieces.Clear();
        pieces.Add(GeodesicArc.From(latitudeRad, longitudeRad, azimuthRad));
    }

    public Cell At(double distanceM)
    {
        var (latitude, longitude) = Piece(distanceM).At(distanceM);
        return new Cell((longitude - westRad) * columnsPerRad, (northRad - latitude) * rowsPerRad);
    }

    /// <summary>How far the piece reaches in which the path goes on from this distance [m].</summary>
    public double PieceEnd(double distanceM)
    {
        foreach (var piece in pieces)
            if (distanceM < piece.EndM) return piece.EndM;
        return Piece(pieces[^1].EndM + 1).EndM;
    }

    private GeodesicArc Piece(double distanceM)
    {
        foreach (var piece in pieces)
            if (distanceM <= piece.EndM) return piece;
        while (pieces[^1].EndM < distanceM) pieces.Add(pieces[^1].Next());
        return pieces[^1];
    }
}
