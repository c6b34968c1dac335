using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Server.Forecasts;

/// <summary>The elevation grids of this service by their ids.</summary>
internal sealed class GridShelf(IReadOnlyDictionary<string, ElevationGrid> grids)
{
    public IEnumerable<string> Ids => grids.Keys.Order(StringComparer.Ordinal);

    public ElevationGrid? Find(string id) => grids.GetValueOrDefault(id);

    /// <summary>Notes every id that no grid has.</summary>
    public void Check(IEnumerable<string> ids, Faults faults)
    {
        foreach (var id in ids.Where(id => !grids.ContainsKey(id)))
            faults.Add("grids", $"'{id}' is not a grid of this service; {(grids.Count > 0 ? $"it has {string.Join(", ", Ids)}" : "it has none")}.");
    }

    /// <param name="ids">Checked.</param>
    /// <param name="fillsHoles">Small holes are to be filled.</param>
    /// <exception cref="BadInputException">They cannot be joined.</exception>
    public ElevationGrid Join(IReadOnlyList<string> ids, bool fillsHoles = false) =>
        GridMosaic.Join([.. ids.Distinct().Select(id => grids[id])], new GridReading { FillHoles = fillsHoles });
}
