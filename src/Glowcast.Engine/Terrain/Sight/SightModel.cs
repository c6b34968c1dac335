using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>How a line of sight runs over the curved earth through the air, and what stands past the grid's edge.</summary>
/// <remarks>Ground at distance d is seen at atan(Δh/d) − d(1−k)/2R (docs/model.md, section Terrain): the earth falls
/// away by d²/2R, and the ray bends after it by the share k.</remarks>
public sealed record SightModel
{
    /// <summary>Mean earth radius [m] (IUGG R1, rounded).</summary>
    public const double EarthRadiusM = 6_371_000;

    /// <summary>The usual coefficient of terrestrial refraction for high sight lines.</summary>
    public const double UsualRefractionK = 0.13;

    /// <summary>Mount Everest.</summary>
    public static readonly Length HighestGroundOnEarth = Length.FromMetres(8849);

    public static SightModel Usual { get; } = new();

    /// <summary>The share k of the earth's curvature that the ray follows.</summary>
    public double RefractionK { get; init; } = UsualRefractionK;

    /// <summary>What stands past the grid's edge; left alone, a smooth earth as high as the grid's ground along that edge.</summary>
    public PastEdge BeyondGrid { get; init; } = PastEdge.AsTheEdge;

    /// <summary>No ground past the grid's edge is taken to be higher; it tells where that ground, unknown, could matter.</summary>
    public Length HighestBeyond { get; init; } = HighestGroundOnEarth;

    /// <summary>The same over a sea of cloud, which goes on past the grid's edge: nothing there is lower than its top.</summary>
    public SightModel Under(Length deckTop) => BeyondGrid.Height < deckTop ? this with { BeyondGrid = PastEdge.OfHeight(deckTop) } : this;

    /// <summary>The angle by which one metre of distance lowers the ground: (1−k)/2R [rad/m].</summary>
    internal double DropPerMetre => (1 - RefractionK) / (2 * EarthRadiusM);

    /// <summary>Whether ground past the grid's edge, were it as high as <see cref="HighestBeyond"/>, would stand above an apparent angle.</summary>
    public bool CouldBeyondStandAbove(Angle altitude, Length eyeHeight, Length edge) =>
        SmoothEarth.Horizon(eyeHeight.Metres, HighestBeyond.Metres, edge.Metres, DropPerMetre).AngleRad > altitude.Radians;
}
