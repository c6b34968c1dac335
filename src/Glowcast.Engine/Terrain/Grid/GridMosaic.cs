using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Joins tiles into a single grid; where they are of different nets, on that of the finest. Where no tile lies there is a hole.</summary>
public static class GridMosaic
{
    /// <summary>Joins grids that are in memory already.</summary>
    /// <inheritdoc cref="Read"/>
    public static ElevationGrid Join(IReadOnlyList<ElevationGrid> tiles, GridReading? reading = null)
    {
        ArgumentNullException.ThrowIfNull(tiles);
        return tiles.Count == 1 && (reading is null || reading with { MostPosts = GridReading.Whole.MostPosts } == GridReading.Whole) ? tiles[0] : Read([.. tiles.Select(GridSource.Of)], reading);
    }

    /// <summary>Reads tiles into one grid; besides the grid itself only a few rows of one tile are in memory at a time.</summary>
    /// <param name="reading">Null for all of it.</param>
    /// <exception cref="BadInputException">No tile, tiles that are damaged, that disagree where they meet or count heights from different levels, or too many posts.</exception>
    public static ElevationGrid Read(IReadOnlyList<GridSource> tiles, GridReading? reading = null)
    {
        ArgumentNullException.ThrowIfNull(tiles);
        if (tiles.Count == 0) throw new BadInputException("grids", "No elevation grid is given; name at least one file.");
        reading ??= GridReading.Whole;
        var datum = DatumOf(tiles);
        var nets = TilesOfNet.Sort(tiles);
        var ground = nets is [var net] ? net.Join(reading) : MixedMosaic.OnFinest(nets, reading);
        var filled = reading.FillHoles ? HoleFilling.Fill(ground.Heights, ground.Posts.Rows, ground.Posts.Columns) : 0;
        return new ElevationGrid(ground.Posts, ground.Heights, string.Join(" + ", tiles.Select(tile => tile.Name)), datum)
        {
            IsCut = ground.IsCut,
            FilledPosts = filled,
            UnmarkedHoles = tiles.Sum(tile => tile.UnmarkedHoles),
            HeightError = HeightError.Of(tiles.Select(tile => tile.HeightError)),
        };
    }

    /// <summary>The one level that all name; null where some do not.</summary>
    private static string? DatumOf(IReadOnlyList<GridSource> tiles)
    {
        var named = tiles.FirstOrDefault(tile => tile.VerticalDatum is not null);
        if (named is null) return null;
        if (tiles.FirstOrDefault(tile => tile.VerticalDatum is not null && tile.VerticalDatum != named.VerticalDatum) is { } other)
            throw new BadInputException("grids", $"{named.Name} counts heights from {named.VerticalDatum} and {other.Name} from {other.VerticalDatum}; all must count from one level. Convert one of them.");
        return tiles.All(tile => tile.VerticalDatum is not null) ? named.VerticalDatum : null;
    }
}
