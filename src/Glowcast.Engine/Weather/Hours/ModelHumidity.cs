namespace Glowcast.Engine.Weather;

/// <summary>What the relative humidity of a model refers to.</summary>
public enum HumidityRule
{
    /// <summary>Saturation over water at any temperature, as soundings report it.</summary>
    OverWater,

    /// <summary>As the service that made the field reckons: over ice where it is cold (docs/model.md, W16).</summary>
    ByProducer,
}

/// <summary>From the humidity of a model to the dew point over water that soundings have (docs/model.md, W16).</summary>
internal static class ModelHumidity
{
    private const int Ncep = 7;
    private const int NcepLaboratory = 59;
    private const int Ecmwf = 98;
    private const double TripleK = 273.16;
    private const double EcmwfIceK = 250.16;
    private const double NcepIceC = -20;

    /// <param name="relativePercent">Clipped to 1…100 %: models overshoot.</param>
    /// <returns>[°C]</returns>
    public static double DewPointC(double temperatureC, double relativePercent, HumidityRule rule, int centre)
    {
        var saturation = rule == HumidityRule.OverWater ? MoistAir.SaturationHPa(temperatureC) : SaturationHPa(temperatureC, centre);
        return OfVapourHPa(Math.Clamp(relativePercent, 1, 100) / 100 * saturation);
    }

    /// <param name="specific">Kilograms of vapour in a kilogram of air.</param>
    public static double DewPointC(double pressureHPa, double specific)
    {
        var q = Math.Max(specific, 1e-8);
        return OfVapourHPa(q * pressureHPa / (0.622 + (0.378 * q)));
    }

    /// <summary>Saturation as the producer takes it: over ice when cold, over water when warm, a blend between.</summary>
    private static double SaturationHPa(double temperatureC, int centre)
    {
        var water = MoistAir.SaturationHPa(temperatureC);
        var share = centre switch
        {
            Ncep or NcepLaboratory => Math.Clamp((temperatureC - NcepIceC) / -NcepIceC, 0, 1),
            Ecmwf => Math.Pow(Math.Clamp((temperatureC + MoistAir.ZeroCelsiusK - EcmwfIceK) / (TripleK - EcmwfIceK), 0, 1), 2),
            _ => 1,
        };
        return (share * water) + ((1 - share) * OverIceHPa(temperatureC));
    }

    /// <summary>Saturation vapour pressure over ice [hPa] (Alduchov &amp; Eskridge, J. Appl. Meteor. 35 (1996) 601).</summary>
    private static double OverIceHPa(double temperatureC) => 6.1121 * Math.Exp(22.587 * temperatureC / (273.86 + temperatureC));

    private static double OfVapourHPa(double vapourHPa)
    {
        var log = Math.Log(vapourHPa / 6.1094);
        return 243.04 * log / (17.625 - log);
    }
}
