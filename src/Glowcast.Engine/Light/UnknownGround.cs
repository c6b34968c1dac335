using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>Ground past the edge of the grid that nobody has looked at, and what it could do to a moment of light.</summary>
/// <param name="Distance">How far the grid reaches towards the sun from the ground that is lit.</param>
/// <param name="AssumedHeight">Of the smooth earth that the moment was reckoned with; null where it was nothing.</param>
/// <param name="CouldMove">By how much the moment would move if ground as high as the highest on that edge of the grid, within 30° of the sun, stood right behind it; zero where even that would
/// stay below what stands highest. The sun climbs 15° · cos(latitude) · |sin(azimuth)| an hour.</param>
public readonly record struct UnknownGround(Length Distance, Length? AssumedHeight, Duration CouldMove)
{
    private const double DegreesPerHour = 15.041;

    // 30° to either side: where the sun may stand within two hours.
    private const double TanAbout = 0.5774;

    // Near noon the sun hardly climbs, and no moment means much.
    private static readonly Duration Most = Duration.FromHours(12);

    /// <returns>Null where no ground past the edge, were it as high as may be, could matter.</returns>
    internal static UnknownGround? Of(Place ground, Azimuth sunAzimuth, TerrainHorizon horizon, SightLines sights)
    {
        if (horizon is not { BeyondCouldMatter: true, GridEdge: { } edge }) return null;
        var (x, y) = sights.Grid.Posts.ToCells(new GroundLine(ground.Point, sunAzimuth).At(edge.Metres));
        var highestM = Math.Min(sights.Model.HighestBeyond.Metres, sights.Grid.EdgeHeights.HighestNearM(x, y, edge.Metres * TanAbout));
        var risesRad = double.IsNaN(highestM) ? 0 : SmoothEarth.Horizon(ground.Height.Metres, highestM, edge.Metres, sights.Model.DropPerMetre).AngleRad - (horizon.Altitude?.Radians ?? -Math.PI / 2);
        var perHour = DegreesPerHour * ground.Point.Latitude.Cos() * Math.Abs(Math.Sin(sunAzimuth.Radians));
        var hours = Math.Max(0, double.RadiansToDegrees(risesRad)) / Math.Max(perHour, 1e-6);
        return new UnknownGround(edge, sights.Model.BeyondGrid.Towards(sunAzimuth, sights.Grid), Duration.FromHours(Math.Min(hours, Most.TotalHours)));
    }
}
