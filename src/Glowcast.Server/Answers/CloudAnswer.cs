using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;

namespace Glowcast.Server.Answers;

/// <summary>What a forecast says of cloud.</summary>
/// <param name="DeckTopM">Of the sea of cloud assumed; null for none.</param>
/// <param name="DeckFrom">Where that height is from.</param>
/// <param name="Sentence">What is assumed, and why.</param>
/// <param name="Sounding">What the plan's sounding tells; null without one.</param>
public sealed record CloudAnswer(double? DeckTopM, DeckSource DeckFrom, string Sentence, SoundingAnswer? Sounding)
{
    public static CloudAnswer Of(CloudOutlook cloud, Length eyeHeight)
    {
        ArgumentNullException.ThrowIfNull(cloud);
        return Of(cloud.Deck, cloud.Reach, eyeHeight);
    }

    /// <param name="reach">Null where the sounding is not judged for one day.</param>
    /// <param name="eyeHeight">Null where it is not known.</param>
    public static CloudAnswer Of(GivenDeck deck, ProfileReach? reach, Length? eyeHeight)
    {
        ArgumentNullException.ThrowIfNull(deck);
        return new CloudAnswer(
            deck.Top?.Metres, deck.Source, deck.Sentence,
            deck.Diagnosis is { } diagnosis ? SoundingAnswer.Of(diagnosis, reach ?? ProfileReach.Unknown, eyeHeight) : null);
    }
}
