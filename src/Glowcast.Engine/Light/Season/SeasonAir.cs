using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Light;

/// <summary>What the air and the ground are taken to be through a season.</summary>
/// <param name="Haze">Between the sun and the ridge.</param>
/// <param name="Visibility">Between the lookout and the ridge.</param>
/// <param name="Air">At the lookout; null for standard air.</param>
public sealed record SeasonAir(Haze Haze, Length Visibility, Reflectances Reflectances, Air? Air = null)
{
    public static SeasonAir Usual { get; } = new(new Haze(0.05), Length.FromKilometres(80), Reflectances.Usual);

    /// <summary>What the sun's beam comes through.</summary>
    public BeamAir Beam => new(Haze, Air);
}
