using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>What a profile tells of a sea of cloud.</summary>
/// <param name="Decks">From the lowest up; empty is an ordinary answer.</param>
/// <param name="Score">The sum of the points of the reasons.</param>
/// <param name="Class">How likely a sea of cloud is at the place and time of the profile.</param>
public sealed record CloudDiagnosis(
    Profile Profile, IReadOnlyList<Inversion> Inversions, IReadOnlyList<MoistLayer> MoistLayers, IReadOnlyList<CloudDeck> Decks,
    int Score, Likelihood Class, IReadOnlyList<LikelihoodReason> Reasons)
{
    /// <summary>What every answer about cloud must say.</summary>
    public const string Caution = "This is an aid to planning, not an official forecast or warning: the national weather service has the last word on fog, cloud and wind.";

    /// <summary>The lowest deck, which the other answers are about; null without any.</summary>
    public CloudDeck? Deck => Decks.Count > 0 ? Decks[0] : null;

    /// <summary>Mean speed of the wind in the lowest 300 m [kt]; null where it was not measured.</summary>
    public double? LowWindKt => DeckLikelihood.LowWindKt(Profile);

    /// <summary>Where the ground's air would become saturated when lifted.</summary>
    public LiftedCondensation LiftedCondensation => MoistAir.LiftedCondensation(Profile.Surface.PressureHPa, Profile.Surface.TemperatureC, Profile.Surface.DewPointC);

    /// <summary>Null without a deck.</summary>
    public BurnOff? BurnOff => Deck is { } deck ? BurnOff.Of(Profile, deck) : null;

    public static CloudDiagnosis Of(Profile profile)
    {
        var inversions = InversionSearch.Of(profile);
        var layers = MoistLayerSearch.Of(profile);
        var decks = CloudDeck.Of(profile, inversions, layers);
        var likelihood = new DeckLikelihood(profile, inversions, layers, decks.Count > 0 ? decks[0] : null);
        var reasons = likelihood.Reasons();
        var score = reasons.Sum(reason => reason.Points);
        return new CloudDiagnosis(profile, inversions, layers, decks, score, likelihood.ClassOf(score), reasons);
    }

    /// <summary>The class at another place and time.</summary>
    public Likelihood ClassAt(ProfileReach reach)
    {
        ArgumentNullException.ThrowIfNull(reach);
        return (Likelihood)Math.Max((int)Likelihood.Unlikely, (int)Class - reach.ClassesLost);
    }

    /// <summary>Where a lookout stands.</summary>
    public LookoutInCloud LookoutAt(Length height) => LookoutInCloud.Of(Deck, MoistLayers, height);
}
