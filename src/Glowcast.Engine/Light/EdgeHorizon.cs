using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Light;

/// <summary>What lets the sun in at one end of a window, or takes it away.</summary>
public enum HorizonKind
{
    /// <summary>Ground of the grid.</summary>
    Terrain,

    /// <summary>The top of the sea of cloud.</summary>
    Deck,

    /// <summary>The dip of a level earth: sea within the grid, or the smooth earth assumed past its edge.</summary>
    OpenHorizon,

    /// <summary>The grid ends there, and what is assumed past it begins at its edge, or nothing is assumed.</summary>
    GridEdge,
}

/// <summary>The horizon towards the sun of the ground that comes into the light, or leaves it, at one end of a window.</summary>
/// <param name="Kind">Of most of that ground.</param>
/// <param name="SunAzimuth">True bearing of the sun there, the median.</param>
/// <param name="Distance">Of what stands highest, the median; null where nothing is known to stand there.</param>
public sealed record EdgeHorizon(HorizonKind Kind, Azimuth SunAzimuth, Length? Distance)
{
    // A level surface, stored and interpolated, is level to this.
    private const double LevelM = 0.5;

    private const double AtEdgeM = 1;

    internal static EdgeHorizon Median(IReadOnlyList<(HorizonKind Kind, Azimuth SunAzimuth, Length? Distance)> horizons)
    {
        var kind = horizons.GroupBy(horizon => horizon.Kind).MaxBy(group => group.Count())!.Key;
        var of = horizons.Where(horizon => horizon.Kind == kind).ToList();
        // Bearings have no order; turns from one of them do.
        var turns = of.Select(horizon => of[0].SunAzimuth.TurnTo(horizon.SunAzimuth)).Order().ToList();
        var distances = of.Where(horizon => horizon.Distance is not null).Select(horizon => horizon.Distance!.Value).Order().ToList();
        return new EdgeHorizon(kind, of[0].SunAzimuth + turns[turns.Count / 2], distances.Count > 0 ? distances[distances.Count / 2] : null);
    }

    internal static HorizonKind KindOf(Place ground, Azimuth azimuth, TerrainHorizon horizon, SightLines sights, Length? deckTop)
    {
        if (horizon.Distance is not { } distance) return HorizonKind.GridEdge;
        var beyond = sights.Model.BeyondGrid.Towards(azimuth, sights.Grid);
        if (horizon.IsBeyondGrid && distance.Metres > horizon.GridEdge!.Value.Metres + AtEdgeM)
            return beyond is { } past && deckTop is { } sea && past.Metres <= sea.Metres + LevelM ? HorizonKind.Deck : HorizonKind.OpenHorizon;
        var isAtEdge = horizon.GridEdge is { } edge && distance.Metres > edge.Metres - AtEdgeM;
        if (sights.Grid.HeightAt(new GroundLine(ground.Point, azimuth).At(distance.Metres)) is not { } height) return isAtEdge ? HorizonKind.GridEdge : HorizonKind.Terrain;
        if (deckTop is { } top && height.Metres <= top.Metres + LevelM) return HorizonKind.Deck;
        if (isAtEdge && height.Metres < (beyond?.Metres ?? 0) - LevelM) return HorizonKind.GridEdge;
        var levelM = sights.Model.BeyondGrid.Height?.Metres ?? 0;
        return height.Metres <= levelM + LevelM ? HorizonKind.OpenHorizon : HorizonKind.Terrain;
    }
}
