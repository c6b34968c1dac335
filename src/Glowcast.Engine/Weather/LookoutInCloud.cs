using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>Where a lookout stands against a deck.</summary>
public enum LookoutVerdict
{
    NoDeck,
    Above,

    /// <summary>Within 50 m of the range of its top: now in, now out.</summary>
    At,
    In,
    Below,
}

/// <summary>A lookout against the lowest deck of a profile.</summary>
/// <param name="Deck">The lowest; null where there is none.</param>
/// <param name="HiddenBy">A moist layer other than the deck's in which it lies; null for none.</param>
public sealed record LookoutInCloud(Length Height, LookoutVerdict Verdict, CloudDeck? Deck, MoistLayer? HiddenBy)
{
    private const double MarginM = 50;

    /// <param name="layers">All moist layers, that of the deck among them.</param>
    internal static LookoutInCloud Of(CloudDeck? lowest, IReadOnlyList<MoistLayer> layers, Length height) => new(
        height, VerdictOf(lowest, height), lowest, layers.FirstOrDefault(layer => layer != lowest?.Layer && height >= layer.Base && height <= layer.Top));

    private static LookoutVerdict VerdictOf(CloudDeck? deck, Length height) => deck switch
    {
        null => LookoutVerdict.NoDeck,
        _ when height.Metres >= deck.TopHigh.Metres + MarginM => LookoutVerdict.Above,
        _ when height.Metres >= deck.TopLow.Metres - MarginM => LookoutVerdict.At,
        _ when height >= deck.Base => LookoutVerdict.In,
        _ => LookoutVerdict.Below,
    };
}
