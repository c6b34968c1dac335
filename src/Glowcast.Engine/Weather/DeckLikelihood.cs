using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>How likely a sea of cloud is, as a class; no percentage stands behind it.</summary>
public enum Likelihood
{
    Unlikely,
    Low,
    Moderate,
    High,
}

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
                ? new(3, LikelihoodFinding.SaturatedLayer) { DepressionC = least }
                : new(2, LikelihoodFinding.MoistLayer) { DepressionC = least };
        }
        var near = profile.Levels.TakeWhile(level => level.HeightM <= NearHighestM).Where(level => level.DepressionC <= NearDepressionC + 1e-6).ToList();
        return near.Count > 0
            ? new(1, LikelihoodFinding.NearlyMoist) { DepressionC = near.Min(level => level.DepressionC), Within = Length.FromMetres(NearHighestM) }
            : null;
    }

    private LikelihoodReason Lid() => Judged switch
    {
        null => new(0, LikelihoodFinding.NoInversion) { StrengthC = InversionSearch.LeastStrengthC, Within = Length.FromMetres(Profile.LowerAirM) },
        { StrengthC: >= InversionSearch.StrongC - 1e-6 } strong => new(2, LikelihoodFinding.StrongInversion) { StrengthC = strong.StrengthC, Base = strong.Base, Top = strong.Top },
        var weak => new(1, LikelihoodFinding.WeakInversion) { StrengthC = weak.StrengthC, Base = weak.Base, Top = weak.Top },
    };

    private LikelihoodReason? DryLid() => Judged is { } lid && DryAir.LiesAbove(profile, lid.Top.Metres)
        ? new(1, LikelihoodFinding.DryAirAbove) { DepressionC = DryAir.LeastDepressionC, Within = Length.FromMetres(DryAir.WithinM) }
        : null;

    private LikelihoodReason? Wind() => LowWindKt(profile) switch
    {
        null => null,
        <= LightWindKt and var calm when Judged is not null => new(1, LikelihoodFinding.LightWind) { WindKt = calm, Within = Length.FromMetres(LowLayerM) },
        > StirringWindKt and var strong => new(-1, LikelihoodFinding.StirringWind) { WindKt = strong, Within = Length.FromMetres(LowLayerM) },
        _ => null,
    };

    private LikelihoodReason? CloudAbove()
    {
        if (deck is null) return null;
        var above = layers.FirstOrDefault(layer => layer.Base >= deck.Layer.Top && layer.Thickness.Metres >= ThickLayerM);
        return above is null ? null : new(-2, LikelihoodFinding.CloudAbove) { Base = above.Base, Top = above.Top };
    }
}
