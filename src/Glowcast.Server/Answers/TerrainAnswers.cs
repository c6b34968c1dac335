using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Server.Answers;

/// <summary>What a grid holds.</summary>
/// <param name="Crs">The coordinate system of its net, by name.</param>
/// <param name="VerticalDatum">What heights are counted from; null where no file says it.</param>
/// <param name="Holes">Posts without a height, which block nothing.</param>
/// <param name="FilledPosts">Holes that were given a height from around them.</param>
/// <param name="HeightErrorM">By how much the heights may be off by what the file says; null where it says nothing.</param>
/// <param name="UnmarkedHoles">Posts whose file held a value that can only stand for no data, such as −9999, without saying so; taken as holes.</param>
/// <param name="LatitudeStepDeg">Null where the net is on the plane of a projection, as is the other step.</param>
public sealed record GridAnswer(
    string Name, string Crs, string? VerticalDatum, int Rows, int Columns, double NorthDeg, double SouthDeg, double WestDeg, double EastDeg,
    double? LatitudeStepDeg, double? LongitudeStepDeg, double CellSizeM, double? LowestM, double? HighestM, int Holes, int FilledPosts,
    double? HeightErrorM = null, long UnmarkedHoles = 0)
{
    public static GridAnswer Of(ElevationGrid grid)
    {
        ArgumentNullException.ThrowIfNull(grid);
        var posts = grid.Posts;
        return new GridAnswer(
            grid.Name, posts.Crs, grid.VerticalDatum, posts.Rows, posts.Columns, posts.NorthDeg, posts.SouthDeg, posts.WestDeg, posts.EastDeg,
            posts.LatitudeStepDeg, posts.LongitudeStepDeg, posts.CellSize.Metres, grid.Relief.Lowest?.Metres, grid.Relief.Highest?.Metres, grid.Relief.Holes, grid.FilledPosts,
            grid.HeightError is { Source: HeightErrorSource.Grid } stated ? stated.Size.Metres : null,
            grid.UnmarkedHoles);
    }
}

/// <summary>How whole the ground is that an answer rests on.</summary>
/// <param name="Holes">Posts without a height, which block nothing.</param>
/// <param name="FilledPosts">Holes that were given a height from around them.</param>
/// <param name="IsCut">The files reach farther: only the ground around the place was read.</param>
/// <param name="HeightErrorM">By how much heights were taken to be off, one standard deviation.</param>
/// <param name="HeightErrorFrom">Who says so: the "plan", the "grid", or "assumed" where neither does.</param>
/// <param name="CrestErrorM">By how much crests may be blunt beside that, for the spacing of the posts.</param>
/// <param name="UnmarkedHoles">Posts whose file held a value that can only stand for no data, such as −9999, without saying so; taken as holes.</param>
public sealed record GroundAnswer(int Holes, int FilledPosts, bool IsCut, double HeightErrorM, HeightErrorSource HeightErrorFrom, double CrestErrorM, long UnmarkedHoles)
{
    public static GroundAnswer? Of(ElevationGrid? grid) => grid is null ? null : new GroundAnswer(
        grid.Relief.Holes, grid.FilledPosts, grid.IsCut, grid.HeightError.Size.Metres, grid.HeightError.Source, TimingUncertainty.CrestError(grid).Metres, grid.UnmarkedHoles);
}

/// <summary>What is taken to stand past the grid's edge, and whether it could matter.</summary>
/// <param name="Assumed">"nothing"; "smoothEarth", of one height; or "gridEdge", a smooth earth as high as the grid's ground along the edge in that direction.</param>
/// <param name="HeightM">Of the smooth earth; null where it depends on the direction, and the question is not about one ray.</param>
/// <param name="HighestM">No ground out there is taken to be higher.</param>
/// <param name="EdgeDistanceM">Where the ray leaves the grid; null where the question is not about one ray.</param>
/// <param name="CouldMatter">Ground out there, as high as it may be, would stand above the answer; null where the
/// question is not about one ray.</param>
public sealed record BeyondGridAnswer(string Assumed, double? HeightM, double HighestM, double? EdgeDistanceM, bool? CouldMatter)
{
    /// <param name="towards">The height in the direction of the ray.</param>
    public static BeyondGridAnswer Of(SightModel model, TerrainHorizon? horizon = null, Length? towards = null)
    {
        ArgumentNullException.ThrowIfNull(model);
        return new BeyondGridAnswer(
            Name(model.BeyondGrid.Kind), (towards ?? model.BeyondGrid.Height)?.Metres, model.HighestBeyond.Metres, horizon?.GridEdge?.Metres, horizon?.BeyondCouldMatter);
    }

    private static string Name(PastEdgeKind kind) => kind switch
    {
        PastEdgeKind.AsTheEdge => "gridEdge",
        PastEdgeKind.SmoothEarth => "smoothEarth",
        _ => "nothing",
    };
}

/// <summary>The terrain horizon of a point of the ground in one direction.</summary>
/// <param name="HeightM">Of the point: the ground's, and the eye's above it where one is given.</param>
/// <param name="HorizonDeg">Null where nothing stands there at all.</param>
public sealed record HorizonAnswer(double HeightM, double AzimuthDeg, double? HorizonDeg, double? DistanceM, BeyondGridAnswer BeyondGrid)
{
    public static HorizonAnswer Of(ElevationGrid grid, SightModel model, Place ground, Azimuth azimuth)
    {
        var horizon = new SightLines(grid, model).HorizonOf(ground, azimuth);
        return new HorizonAnswer(
            ground.Height.Metres, azimuth.Degrees, horizon.Altitude?.Degrees, horizon.Distance?.Metres, BeyondGridAnswer.Of(model, horizon, model.BeyondGrid.Towards(azimuth, grid)));
    }
}

/// <summary>Whether a point of the ground is visible.</summary>
/// <param name="MarginDeg">By how much the target stands above what is in between; null where nothing is.</param>
public sealed record SightAnswer(
    bool Visible, double? MarginDeg, double DistanceM, double BearingDeg, double ApparentAltitudeDeg, double TargetHeightM, double EyeHeightM,
    double? HighestBetweenDeg, double? HighestBetweenM)
{
    public static SightAnswer Of(Sight sight, Place eye) => new(
        sight.IsVisible, sight.Margin?.Degrees, sight.Line.Distance.Metres, sight.Line.Bearing.Degrees, sight.Altitude.Degrees,
        sight.Target.Height.Metres, eye.Height.Metres, sight.HighestBetween?.Degrees, sight.HighestBetweenDistance?.Metres);
}

/// <summary>What stands highest in a span, bearing by bearing.</summary>
public sealed record SkylineAnswer(double EyeHeightM, IReadOnlyList<SkylineColumnAnswer> Columns)
{
    public static SkylineAnswer Of(VisibleSurface view, SightModel model)
    {
        ArgumentNullException.ThrowIfNull(view);
        ArgumentNullException.ThrowIfNull(model);
        return new SkylineAnswer(view.Eye.Height.Metres, [.. view.Columns.Select(column => SkylineColumnAnswer.Of(column, view.Eye, model))]);
    }
}

/// <summary>One bearing of a skyline; nulls where the grid has no ground there.</summary>
/// <param name="GridEdgeM">Where the bearing leaves the grid.</param>
/// <param name="BeyondCouldMatter">Ground past that, as high as it may be, would stand above the skyline.</param>
public sealed record SkylineColumnAnswer(
    double BearingDeg, double? SkylineDeg, double? DistanceM, double? HeightM, double? LatitudeDeg, double? LongitudeDeg,
    double GridEdgeM, bool BeyondCouldMatter)
{
    public static SkylineColumnAnswer Of(VisibleColumn column, Place eye, SightModel model)
    {
        ArgumentNullException.ThrowIfNull(column);
        ArgumentNullException.ThrowIfNull(model);
        var (bearingDeg, edgeM) = (column.Bearing.Degrees, column.GridEdge.Metres);
        if (column.Skyline is not { } top) return new SkylineColumnAnswer(bearingDeg, null, null, null, null, null, edgeM, true);
        var point = new GroundLine(eye.Point, column.Bearing).At(top.DistanceM);
        return new SkylineColumnAnswer(
            bearingDeg, double.RadiansToDegrees(top.AltitudeRad), top.DistanceM, top.HeightM, point.LatitudeDeg, point.LongitudeDeg,
            edgeM, model.CouldBeyondStandAbove(Angle.FromRadians(top.AltitudeRad), eye.Height, column.GridEdge));
    }
}
