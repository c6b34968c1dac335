using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Light;

/// <summary>How much of its light the ground gives back, place by place, as the user's own grid has it.</summary>
/// <remarks>A grid of any format that heights come in, with reflectances for heights; between posts it runs straight, and nothing is said in holes and outside. Immutable.</remarks>
public sealed class SurfaceRaster
{
    private readonly ElevationGrid grid;

    private SurfaceRaster(ElevationGrid grid) => this.grid = grid;

    public string Name => grid.Name;

    /// <param name="grid">Reflectances, 0 to 1.</param>
    /// <param name="field">Where the user wrote it.</param>
    /// <exception cref="BadInputException">It holds no reflectances.</exception>
    public static SurfaceRaster Of(ElevationGrid grid, string field)
    {
        ArgumentNullException.ThrowIfNull(grid);
        if (grid.Relief is not { Lowest: { } lowest, Highest: { } highest }) throw new BadInputException(field, $"{grid.Name} holds nothing but holes; it must hold reflectances, 0 to 1.");
        return lowest.Metres >= 0 && highest.Metres <= 1
            ? new SurfaceRaster(grid)
            : throw new BadInputException(field, $"{grid.Name} holds {lowest.Metres:0.###} to {highest.Metres:0.###}; reflectances lie between 0 and 1: old snow 0.8, pale rock 0.3, rock 0.15, forest 0.05.");
    }

    /// <summary>Null where it says nothing.</summary>
    public double? At(GeoPoint point) => grid.Contains(point) ? grid.HeightAt(point)?.Metres : null;
}
