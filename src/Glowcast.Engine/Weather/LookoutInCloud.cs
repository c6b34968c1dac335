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
public sealed record LookoutInCloud(Length Height, LookoutVerdict Verdict, string Sentence)
{
    private const double MarginM = 50;

    /// <param name="layers">All moist layers, that of the deck among them.</param>
    internal static LookoutInCloud Of(CloudDeck? lowest, IReadOnlyList<MoistLayer> layers, Length height)
    {
        var verdict = VerdictOf(lowest, height);
        var hidden = layers.FirstOrDefault(layer => layer != lowest?.Layer && height >= layer.Base && height <= layer.Top);
        var caution = hidden is null ? "" : $" It lies in {(lowest is null ? "a" : "another")} moist layer, from {hidden.Base.Metres:0} to {hidden.Top.Metres:0} m: expect cloud there.";
        return new LookoutInCloud(height, verdict, Say(verdict, lowest, height) + caution);
    }

    private static LookoutVerdict VerdictOf(CloudDeck? deck, Length height) => deck switch
    {
        null => LookoutVerdict.NoDeck,
        _ when height.Metres >= deck.TopHigh.Metres + MarginM => LookoutVerdict.Above,
        _ when height.Metres >= deck.TopLow.Metres - MarginM => LookoutVerdict.At,
        _ when height >= deck.Base => LookoutVerdict.In,
        _ => LookoutVerdict.Below,
    };

    private static string Say(LookoutVerdict verdict, CloudDeck? deck, Length height) => verdict switch
    {
        LookoutVerdict.NoDeck => "The profile has no deck.",
        LookoutVerdict.Above => $"The lookout, at {height.Metres:0} m, stands {height.Metres - deck!.TopHigh.Metres:0} m above the top of the deck.",
        LookoutVerdict.At => $"The lookout, at {height.Metres:0} m, stands at the top of the deck ({deck!.TopInWords}): it may be in cloud at any time.",
        LookoutVerdict.In => $"The lookout, at {height.Metres:0} m, stands in the deck ({deck!.Base.Metres:0} to {deck.TopInWords}).",
        _ => $"The lookout, at {height.Metres:0} m, stands below the deck, whose base is at {deck!.Base.Metres:0} m.",
    };
}
