using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;

namespace Glowcast.Engine.Forecast;

/// <summary>Where the height of a deck is from.</summary>
public enum DeckSource
{
    /// <summary>No deck is assumed.</summary>
    None,

    /// <summary>The plan gives its top.</summary>
    Typed,

    /// <summary>The plan's sounding shows one.</summary>
    Sounding,
}

/// <summary>The sea of cloud that an answer assumes. A typed top goes before that of a sounding.</summary>
/// <param name="Top">Null for none. Of a sounding it is the high estimate: the cautious one for the lookout.</param>
/// <param name="Diagnosis">Of the plan's sounding; null without one.</param>
public sealed record GivenDeck(Length? Top, DeckSource Source, CloudDiagnosis? Diagnosis)
{
    public static GivenDeck Of(Conditions conditions)
    {
        ArgumentNullException.ThrowIfNull(conditions);
        var diagnosis = conditions.Profile is { } profile ? CloudDiagnosis.Of(profile) : null;
        if (conditions.DeckTop is { } typed) return new GivenDeck(typed, DeckSource.Typed, diagnosis);
        return diagnosis?.Deck is { } deck
            ? new GivenDeck(deck.TopHigh, DeckSource.Sounding, diagnosis)
            : new GivenDeck(null, DeckSource.None, diagnosis);
    }

    /// <summary>What must be said beside it.</summary>
    public IReadOnlyList<string> Cautions => Diagnosis is null ? [] : [CloudDiagnosis.Caution];

    /// <summary>The conditions with this deck in them; it goes on past the grid's edge.</summary>
    public Conditions In(Conditions conditions)
    {
        ArgumentNullException.ThrowIfNull(conditions);
        return Top is { } top ? conditions with { DeckTop = top, Sight = conditions.Sight.Under(top) } : conditions;
    }
}
