namespace Glowcast.Engine.Terrain;

/// <summary>The horizon of one point, asked for at one azimuth after another: the high ground found last is tried first,
/// and whatever lies beyond the sought range of angles is passed over.</summary>
/// <remarks>Mutable, for one thread. The earth assumed past the grid's edge is part of the answer.</remarks>
internal sealed class HorizonProbe(ElevationGrid grid, SightModel model)
{
    private readonly SightRay ray = new(grid, model);
    private readonly double nearestM = grid.Posts.CellSize.Metres;

    private double latitudeRad;
    private double longitudeRad;
    private double heightM;
    private double lastM;

    /// <summary>Where the last ray left the grid [m]; NaN where it need not have gone there.</summary>
    public double EdgeM => ray.EdgeM;

    public void StandAt(double latitudeRad, double longitudeRad, double heightM)
    {
        (this.latitudeRad, this.longitudeRad, this.heightM) = (latitudeRad, longitudeRad, heightM);
        lastM = double.NaN;
    }

    /// <summary>The greatest angle between floor and ceiling; below the floor nothing is found, and any angle above the
    /// ceiling may be given for a greater one.</summary>
    public RayMaximum Find(double azimuthRad, double floorRad = -Math.PI / 2, double ceilingRad = Math.PI / 2)
    {
        ray.Aim(latitudeRad, longitudeRad, heightM, azimuthRad);
        var ground = ray.Highest(nearestM, double.PositiveInfinity, floorRad, ceilingRad, lastM);
        if (ground.Found) lastM = ground.DistanceM;
        if (ground.AngleRad > ceilingRad || double.IsNaN(ray.EdgeM)) return ground;
        var beyondM = model.BeyondGrid.HeightM(azimuthRad, grid);
        if (double.IsNaN(beyondM)) return ground;
        var beyond = SmoothEarth.Horizon(heightM, beyondM, ray.EdgeM, model.DropPerMetre);
        return beyond.AngleRad > ground.AngleRad && beyond.AngleRad > floorRad ? beyond : ground;
    }
}
