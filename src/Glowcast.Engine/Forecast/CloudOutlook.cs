using Glowcast.Engine.Weather;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>What a forecast says of cloud.</summary>
/// <param name="Deck">The sea of cloud assumed.</param>
/// <param name="Reach">How far off the sounding is from lookout and light; null without one.</param>
/// <param name="Sweep">What a deck of other heights would leave of the span.</param>
public sealed record CloudOutlook(GivenDeck Deck, ProfileReach? Reach, DeckSweep Sweep)
{
    /// <summary>Null without a deck in view, or without a sun.</summary>
    public DeckLight? Light { get; init; }

    /// <summary>Where named layers of cloud lie in the way of the windows' light.</summary>
    public IReadOnlyList<SunwardCut> Sunward { get; init; } = [];

    /// <summary>When the sounding's deck may have cleared, from the earliest to the latest; null where the sun does not
    /// reach it, where one day of it is not enough, and where the deck is not the sounding's.</summary>
    public Interval? Clears => Deck is { Source: DeckSource.Sounding, Diagnosis.BurnOff: { IsWithinADay: true } burnOff } && Light?.HalfLit is { } lit
        ? new Interval(lit + Duration.FromHours(burnOff.EarliestHours), lit + Duration.FromHours(burnOff.LatestHours))
        : null;
}
