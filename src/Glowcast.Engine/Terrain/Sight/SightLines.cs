using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>What can be seen from where, over one grid: horizons and lines of sight.</summary>
/// <remarks>Ground nearer than one cell is left out: the grid does not know its shape.</remarks>
public sealed class SightLines(ElevationGrid grid, SightModel model)
{
    public ElevationGrid Grid { get; } = grid;

    public SightModel Model { get; } = model;

    private double NearestM => Grid.Posts.CellSize.Metres;

    /// <summary>The highest thing that stands in one direction: ground of the grid, or the earth assumed past its edge.</summary>
    public TerrainHorizon HorizonOf(Place eye, Azimuth azimuth)
    {
        var probe = new HorizonProbe(Grid, Model);
        probe.StandAt(eye.Point.Latitude.Radians, eye.Point.Longitude.Radians, eye.Height.Metres);
        var highest = probe.Find(azimuth.Radians);
        if (!highest.Found) return default;
        // The search ends where no ground of the grid could stand higher; ground past its edge, unknown, may be higher still.
        var edge = double.IsNaN(probe.EdgeM) ? RayEdge.Of(Grid.Posts, eye.Point, azimuth) : Length.FromMetres(probe.EdgeM);
        var altitude = Angle.FromRadians(highest.AngleRad);
        return new TerrainHorizon(
            altitude, Length.FromMetres(highest.DistanceM), edge, Model.CouldBeyondStandAbove(altitude, eye.Height, edge));
    }

    /// <summary>Whether one point of the ground can be seen from an eye, and by what margin.</summary>
    /// <returns>Null where the grid has no height for the target.</returns>
    /// <remarks>The last half cell before the target is left out: the target stands on it.</remarks>
    public Sight? SightTo(Place eye, GeoPoint target)
    {
        if (Grid.HeightAt(target) is not { } height) return null;
        var line = Geodesic.Between(eye.Point, target);
        var distanceM = line.Distance.Metres;
        if (distanceM <= 0) return null;
        var altitudeRad = Math.Atan((height - eye.Height).Metres / distanceM) - (distanceM * Model.DropPerMetre);
        var ray = new SightRay(Grid, Model);
        ray.Aim(eye.Point.Latitude.Radians, eye.Point.Longitude.Radians, eye.Height.Metres, line.Bearing.Radians);
        var lastM = distanceM - (NearestM / 2);
        var between = lastM > NearestM ? ray.Highest(NearestM, lastM) : RayMaximum.None;
        return new Sight(
            line,
            new Place(target, height),
            Angle.FromRadians(altitudeRad),
            between.Found ? Angle.FromRadians(between.AngleRad) : null,
            between.Found ? Length.FromMetres(between.DistanceM) : null);
    }
}

/// <summary>The highest thing that stands in one direction, as an apparent angle at the eye.</summary>
/// <param name="Altitude">Null where nothing stands there: no ground, and nothing assumed past the grid's edge.</param>
/// <param name="Distance">Of what stands highest.</param>
/// <param name="GridEdge">Where the ray leaves the grid; null where nothing stands there.</param>
/// <param name="BeyondCouldMatter">Ground past the edge could stand higher than this, were it as high as it may be (<see cref="SightModel.HighestBeyond"/>).</param>
public readonly record struct TerrainHorizon(Angle? Altitude, Length? Distance, Length? GridEdge, bool BeyondCouldMatter)
{
    /// <summary>True where the earth assumed past the grid's edge stands highest.</summary>
    public bool IsBeyondGrid => Distance is { } distance && GridEdge is { } edge && distance > edge;
}

/// <summary>A line of sight to a point of the ground.</summary>
/// <param name="Line">How far, and in which direction.</param>
/// <param name="Target">The ground looked at.</param>
/// <param name="Altitude">Apparent angle of the target at the eye.</param>
/// <param name="HighestBetween">Apparent angle of the highest ground in between; null where there is none.</param>
/// <param name="HighestBetweenDistance">How far that ground is.</param>
public readonly record struct Sight(Geodesic Line, Place Target, Angle Altitude, Angle? HighestBetween, Length? HighestBetweenDistance)
{
    /// <summary>By how much the target stands above what is in the way; negative where it is hidden, null where nothing is between.</summary>
    public Angle? Margin => HighestBetween is { } between ? Altitude - between : null;

    public bool IsVisible => Margin is null || Margin.Value >= Angle.Zero;
}
