namespace Glowcast.Engine.Weather;

/// <summary>How likely a sea of cloud is, as a class; no percentage stands behind it.</summary>
public enum Likelihood
{
    Unlikely,
    Low,
    Moderate,
    High,
}

/// <summary>One reason for or against a sea of cloud.</summary>
/// <param name="Points">What it adds to the score.</param>
/// <param name="Sentence">With the figure found, the threshold and where that is from.</param>
public sealed record LikelihoodReason(int Points, string Sentence);

/// <summary>Weighs what speaks for and against a sea of cloud (docs/model.md, W9). The thresholds are published; the points
/// are our own.</summary>
internal sealed class DeckLikelihood(Profile profile, IReadOnlyList<Inversion> inversions, IReadOnlyList<MoistLayer> layers, CloudDeck? deck)
{
    private const double LowLayerM = 300;
    private const double LightWindKt = 5;
    private const double StirringWindKt = 15;
    private const double NearDepressionC = 4;
    private const double NearHighestM = 1500;
    private const double ThickLayerM = 50;

    /// <summary>Mean speed of the wind in the lowest 300 m above the ground [kt]; null where no level there has one.</summary>
    public static double? LowWindKt(Profile profile)
    {
        var winds = profile.Levels.Where(level => level.HeightM <= profile.Surface.HeightM + LowLayerM).Select(level => level.WindKt).OfType<double>().ToList();
        return winds.Count > 0 ? winds.Average() : null;
    }

    public IReadOnlyList<LikelihoodReason> Reasons() => [.. new[] { Moisture(), Lid(), DryLid(), Wind(), CloudAbove() }.OfType<LikelihoodReason>()];

    public Likelihood ClassOf(int score) => (inversions.Count > 0, deck is not null, score) switch
    {
        (false, _, _) => Likelihood.Unlikely,
        (_, false, >= 3) => Likelihood.Low,
        (_, false, _) => Likelihood.Unlikely,
        (_, _, >= 6) => Likelihood.High,
        (_, _, >= 4) => Likelihood.Moderate,
        _ => Likelihood.Low,
    };

    private Inversion? Judged => deck?.Lid ?? inversions.MaxBy(inversion => inversion.StrengthC);

    private LikelihoodReason? Moisture()
    {
        if (Judged is null) return null;
        if (deck is not null)
        {
            var least = deck.Layer.LeastDepressionC;
            return least <= MoistLayerSearch.SaturatedDepressionC + 1e-6
                ? new(3, $"The layer under the inversion is saturated: temperature and dew point come within {least:0.0} °C, and 1 °C or less is cloud (a depression near 0; Hong Kong Observatory on upper-air charts).")
                : new(2, $"The layer under the inversion is moist: temperature and dew point come within {least:0.0} °C, and cloud is likely up to 2 °C (after J. Appl. Meteor. 35 (1996) 1362).");
        }
        var near = profile.Levels.TakeWhile(level => level.HeightM <= NearHighestM).Where(level => level.DepressionC <= NearDepressionC + 1e-6).ToList();
        return near.Count > 0
            ? new(1, $"There is no deck, but temperature and dew point come within {near.Min(level => level.DepressionC):0.0} °C below {NearHighestM:0} m, and a sensor can read up to 4 °C at the base of low cloud (Remote Sensing 11 (2019) 2900).")
            : null;
    }

    private LikelihoodReason Lid() => Judged switch
    {
        null => new(0, $"No inversion of {InversionSearch.LeastStrengthC:0} °C or more begins within {Profile.LowerAirM:0} m of the ground: nothing would hold a deck down, so a sea of cloud is unlikely (the definition of a cloud inversion; 1 °C as the least that counts is common practice)."),
        { StrengthC: >= InversionSearch.StrongC - 1e-6 } strong => new(2, $"The inversion from {strong.Base.Metres:0} to {strong.Top.Metres:0} m is strong: {strong.StrengthC:0.0} °C, of which 3 °C and more count as strong (common practice)."),
        var weak => new(1, $"The inversion from {weak.Base.Metres:0} to {weak.Top.Metres:0} m is weak: {weak.StrengthC:0.0} °C, where 3 °C would be strong and 1 °C is the least that counts (common practice)."),
    };

    private LikelihoodReason? DryLid() => Judged is { } lid && DryAir.LiesAbove(profile, lid.Top.Metres)
        ? new(1, $"Dry air (temperature and dew point {DryAir.LeastDepressionC:0} °C or more apart) lies within {DryAir.WithinM:0} m above the inversion, so the deck's top is sharp (a shallow moist layer beneath a dry one: American Meteorological Society on radiation fog).")
        : null;

    private LikelihoodReason? Wind() => LowWindKt(profile) switch
    {
        null => null,
        <= LightWindKt and var calm => new(1, $"The mean wind of the lowest {LowLayerM:0} m is light: {calm:0} kt, and fog forms up to about 5 kt (University of Arizona, NATS 101, lecture 10)."),
        > StirringWindKt and var strong => new(-1, $"The mean wind of the lowest {LowLayerM:0} m is {strong:0} kt; above 10 to 15 kt the air is stirred, and fog lifts into broken stratus (US Navy weather training manual 14010)."),
        _ => null,
    };

    private LikelihoodReason? CloudAbove()
    {
        if (deck is null) return null;
        var above = layers.FirstOrDefault(layer => layer.Base >= deck.Layer.Top && layer.Thickness.Metres >= ThickLayerM);
        return above is null ? null : new(
            -2, $"Another moist layer lies above the deck, from {above.Base.Metres:0} to {above.Top.Metres:0} m: cloud there shades the deck from its own cooling, and you from the sun (clear sky above is part of what makes a cloud inversion; American Meteorological Society on radiation fog).");
    }
}
