using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Field.Magnetism;
using NodaTime;

namespace Glowcast.Field.Card;

/// <summary>What a forecast does not say and the one who takes it along does.</summary>
public sealed record CardChoices
{
    /// <summary>From the door to the lookout.</summary>
    public Duration Travel { get; init; } = Duration.FromHours(1);

    /// <summary>From true north to magnetic north, east positive; null to take the plan's, or else the model's.</summary>
    public Angle? MagneticDeclination { get; init; }

    /// <exception cref="BadInputException">None is given by hand, and the model does not hold on the day.</exception>
    public Declination DeclinationFor(LightForecast forecast)
    {
        ArgumentNullException.ThrowIfNull(forecast);
        var (lookout, date) = (forecast.Plan.Lookout!, forecast.Plan.Date!.Value);
        return (MagneticDeclination ?? lookout.MagneticDeclination) is { } byHand
            ? Declination.ByHand(byHand, date)
            : Declination.Modelled(forecast.Eye, date);
    }
}
