using Glowcast.Engine.Weather;

namespace Glowcast.Engine.Forecast;

/// <summary>What a forecast says of cloud.</summary>
/// <param name="Deck">The sea of cloud assumed.</param>
/// <param name="Reach">How far off the sounding is from lookout and light; null without one.</param>
public sealed record CloudOutlook(GivenDeck Deck, ProfileReach? Reach);
