namespace Glowcast.Engine.Light;

/// <summary>How a ridge reads by its own shadows. Common practice, no source.</summary>
public enum ReliefReading
{
    /// <summary>Less than 20 % of what is seen of it is in shadow: little tells one spur from the next.</summary>
    Flat,

    /// <summary>20 % to 60 %: light and shadow model it.</summary>
    Modelled,

    /// <summary>More than 60 %: it stands as a dark shape.</summary>
    Dark,
}

/// <summary>Light and shadow on the visible ridge at one moment, as shares of its height in the picture.</summary>
/// <param name="OwnShadow">Faces away from the sun.</param>
/// <param name="CastShadow">Faces the sun, but other ground stands in the way.</param>
/// <param name="Incidence">Of the lit part: the mean cosine of the angle between its normal and the sun; null where none is lit.</param>
/// <param name="Weight">The height judged [°].</param>
public readonly record struct RidgeShadow(double OwnShadow, double CastShadow, double? Incidence, double Weight)
{
    private const double LeastModelled = 0.2;
    private const double MostModelled = 0.6;

    /// <summary>The relief figure: the share in shadow of either kind.</summary>
    public double Shadow => OwnShadow + CastShadow;

    public ReliefReading Reading => Shadow switch
    {
        < LeastModelled => ReliefReading.Flat,
        > MostModelled => ReliefReading.Dark,
        _ => ReliefReading.Modelled,
    };

    /// <summary>Of one piece of ground; null where its facing is not known.</summary>
    /// <param name="towardsSun">The cosine of the angle between its normal and the sun, or NaN.</param>
    internal static RidgeShadow? Of(double towardsSun, bool isLit, double weight) => towardsSun switch
    {
        double.NaN => null,
        <= 0 => new RidgeShadow(1, 0, null, weight),
        _ => isLit ? new RidgeShadow(0, 0, towardsSun, weight) : new RidgeShadow(0, 1, null, weight),
    };

    /// <summary>Of several parts of a ridge together; null without any.</summary>
    internal static RidgeShadow? Together(IEnumerable<RidgeShadow> parts)
    {
        var (weight, own, cast, lit, facing) = (0.0, 0.0, 0.0, 0.0, 0.0);
        foreach (var part in parts)
        {
            weight += part.Weight;
            own += part.Weight * part.OwnShadow;
            cast += part.Weight * part.CastShadow;
            if (part.Incidence is not { } incidence) continue;
            var litWeight = part.Weight * (1 - part.Shadow);
            lit += litWeight;
            facing += litWeight * incidence;
        }
        return weight > 0 ? new RidgeShadow(own / weight, cast / weight, lit > 0 ? facing / lit : null, weight) : null;
    }
}
