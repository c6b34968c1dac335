using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Places near to one another, in an order in which neighbours follow neighbours.</summary>
/// <param name="Row">Of blocks, from north to south.</param>
/// <param name="Column">Of blocks, from west to east.</param>
/// <param name="Places">Their numbers and where they stand in the grid.</param>
internal sealed record FanBlock(int Row, int Column, IReadOnlyList<(int Place, Cell Cell)> Places)
{
    public const int Rows = 64;
    public const int Columns = 64;

    private const int Bits = 6;

    // So that there is something for every processor.
    private const int MostPlaces = 256;

    /// <exception cref="ArgumentException">A place lies outside the grid.</exception>
    public static IReadOnlyList<FanBlock> Of(IReadOnlyList<Place> places, ElevationGrid grid) =>
    [
        .. Enumerable.Range(0, places.Count)
            .Select(place => (Place: place, Cell: CellOf(places[place], grid)))
            .GroupBy(place => (Row: (int)place.Cell.Y / Rows, Column: (int)place.Cell.X / Columns))
            .OrderBy(block => block.Key)
            .SelectMany(block => block.OrderBy(place => Order(place.Cell)).Chunk(MostPlaces).Select(some => new FanBlock(block.Key.Row, block.Key.Column, some))),
    ];

    private static Cell CellOf(Place place, ElevationGrid grid)
    {
        if (!grid.Contains(place.Point)) throw new ArgumentException($"{place.Point} lies outside the grid {grid.Name}.", nameof(place));
        var (x, y) = grid.Posts.ToCells(place.Point);
        return new Cell(x, y);
    }

    /// <summary>In the order of a Z, and of a Z of Zs.</summary>
    private static int Order(Cell cell)
    {
        var (row, column, order) = ((int)cell.Y % Rows, (int)cell.X % Columns, 0);
        for (var bit = Bits - 1; bit >= 0; bit--) order = (order << 2) | (((row >> bit) & 1) << 1) | ((column >> bit) & 1);
        return order;
    }
}
