using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>What weather files say of a window: light by weather, told apart from light by geometry (docs/model.md, W19).</summary>
/// <param name="BeamChance">That the sun's beam reaches the ridge; null where the files have no cloud for it.</param>
/// <param name="BeamLow">The least over refraction k from 0 to 0.25.</param>
/// <param name="BeamHigh">The greatest.</param>
/// <param name="DeckChance">That there is a sea of cloud; null where the files have no profile for it.</param>
/// <param name="AboveDeckChance">That there is one and the lookout stands above it.</param>
/// <param name="Worst">The cloud that takes most of the beam; null for none.</param>
/// <param name="Reference">When the run began.</param>
/// <param name="Step">Between the hours of the files.</param>
/// <param name="UnseenBeyond">Where the files end on the beam's way, at the nearest; null where it is followed to the end.</param>
/// <param name="Minutes">What is left of the beam, from the window's start to its end.</param>
/// <param name="Hours">The deck, from six hours before the window to three after it, as far as the files reach.</param>
public sealed record WindowWeather(
    double? BeamChance, double? BeamLow, double? BeamHigh, double? DeckChance, double? AboveDeckChance, CloudCrossing? Worst, Instant Reference, Duration Step,
    Length? UnseenBeyond, IReadOnlyList<BeamMinute> Minutes, IReadOnlyList<ModelProfile> Hours)
{
    /// <summary>Without thirty own outcomes no chance is lower or higher than this (common practice).</summary>
    public const double LeastChance = 0.05;

    /// <inheritdoc cref="LeastChance"/>
    public const double MostChance = 0.9;

    public static double Capped(double chance) => Math.Clamp(chance, LeastChance, MostChance);
}

/// <summary>The beam at one minute.</summary>
/// <param name="Share">To be expected of the direct light, over the parts of the ridge and of the disc.</param>
public readonly record struct BeamMinute(Instant At, double Share);
