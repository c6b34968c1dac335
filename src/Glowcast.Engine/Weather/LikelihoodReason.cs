using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>What a profile has that speaks for or against a sea of cloud (docs/model.md, W9).</summary>
public enum LikelihoodFinding
{
    /// <summary>The layer under the inversion is cloud.</summary>
    SaturatedLayer,

    /// <summary>The layer under the inversion is moist enough for cloud.</summary>
    MoistLayer,

    /// <summary>No deck, but air that is nearly moist enough.</summary>
    NearlyMoist,

    /// <summary>Nothing holds a deck down.</summary>
    NoInversion,

    StrongInversion,
    WeakInversion,

    /// <summary>Dry air close above the inversion.</summary>
    DryAirAbove,

    LightWind,

    /// <summary>Wind that stirs the lowest air.</summary>
    StirringWind,

    /// <summary>Another moist layer above the deck.</summary>
    CloudAbove,
}

/// <summary>One reason for or against a sea of cloud.</summary>
/// <param name="Points">What it adds to the score.</param>
/// <remarks>Quantities that the finding has not are null.</remarks>
public sealed record LikelihoodReason(int Points, LikelihoodFinding Finding)
{
    /// <summary>Temperature less dew point [K]: the least found, or where it is dry air, the least that counts.</summary>
    public double? DepressionC { get; init; }

    /// <summary>By how much the inversion is warmer at its top [K]; without one, the least that counts.</summary>
    public double? StrengthC { get; init; }

    /// <summary>Mean speed [kt].</summary>
    public double? WindKt { get; init; }

    /// <summary>Of the inversion, or of the layer above.</summary>
    public Length? Base { get; init; }

    /// <inheritdoc cref="Base"/>
    public Length? Top { get; init; }

    /// <summary>How far up was looked: from the ground, or from the inversion for dry air.</summary>
    public Length? Within { get; init; }
}
