using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Light;

/// <summary>What the ground in the picture is made of, as far as light goes: how much of it each piece sends back, evenly to all sides.</summary>
/// <param name="Ground">Of ridge and valley, or, where there is a snow line, of snow and bare ground.</param>
/// <param name="SnowLine">Ground at least so high is snow and lower ground is bare; null for the ridge's and the valley's own.</param>
/// <param name="Deck">Of the top of a sea of cloud, 0 to 1.</param>
public sealed record Surfaces(Reflectances Ground, Length? SnowLine = null, double Deck = Surfaces.UsualDeck)
{
    /// <summary>Stratus and stratocumulus from above: 0.35 to 0.8 by their thickness (poorly sourced).</summary>
    public const double UsualDeck = 0.6;

    public static Surfaces Usual { get; } = new(Reflectances.Usual);

    /// <summary>The user's own, which goes before the others where it says anything; null for none.</summary>
    public SurfaceRaster? Raster { get; init; }

    /// <param name="isDeck">It is the top of the sea of cloud.</param>
    public double Of(GroundPatch patch, bool isDeck)
    {
        if (isDeck) return Deck;
        if (Raster?.At(patch.Ground.Point) is { } own) return own;
        var isBright = SnowLine is { } line ? patch.Ground.Height >= line : patch.Role != PatchRole.Valley;
        return isBright ? Ground.LitRidge : Ground.ShadedGround;
    }
}
