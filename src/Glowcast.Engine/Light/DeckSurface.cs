namespace Glowcast.Engine.Light;

/// <summary>The top of a sea of cloud as ground.</summary>
internal static class DeckSurface
{
    /// <summary>Ground no higher than this over the top of a deck is the deck [m].</summary>
    public const double ToleranceM = 0.5;
}
