namespace Glowcast.Engine.Light;

/// <summary>What counts how much when the days of a season are ranked; only how they stand to one another matters. Common practice, no source.</summary>
public sealed record SeasonWeights
{
    private readonly Dictionary<SeasonAspect, double> set = [];

    private static readonly Dictionary<SeasonAspect, double> UsualWeights = new()
    {
        [SeasonAspect.Coverage] = 0.1,
        [SeasonAspect.ValleyShade] = 0.1,
        [SeasonAspect.Length] = 0.15,
        [SeasonAspect.Colour] = 0.3,
        [SeasonAspect.Relief] = 0.05,
        [SeasonAspect.BlackPoint] = 0.2,
        [SeasonAspect.Hour] = 0.05,
        [SeasonAspect.Moon] = 0.05,
        [SeasonAspect.ClearSky] = 0.2,
    };

    public static SeasonWeights Usual { get; } = new();

    /// <param name="given">In the place of the usual ones; 0 leaves an aspect out.</param>
    public static SeasonWeights With(IEnumerable<KeyValuePair<SeasonAspect, double>> given)
    {
        ArgumentNullException.ThrowIfNull(given);
        var weights = new SeasonWeights();
        foreach (var (aspect, weight) in given) weights.set[aspect] = weight;
        return weights;
    }

    public double Of(SeasonAspect aspect) => set.TryGetValue(aspect, out var weight) ? weight : UsualWeights[aspect];
}
