namespace Glowcast.Engine.Weather;

/// <summary>Water vapour in air (docs/model.md, W1–W4).</summary>
internal static class MoistAir
{
    internal const double HeatCapacity = 1005.7;
    internal const double Gravity = 9.80665;
    internal const double DryGasConstant = 287.05;
    internal const double ZeroCelsiusK = 273.15;

    /// <summary>Saturation vapour pressure over water [hPa] (Alduchov &amp; Eskridge, J. Appl. Meteor. 35 (1996) 601).</summary>
    public static double SaturationHPa(double temperatureC) => 6.1094 * Math.Exp(17.625 * temperatureC / (243.04 + temperatureC));

    /// <summary>Grams of vapour in a kilogram of dry air.</summary>
    public static double MixingRatioGPerKg(double pressureHPa, double dewPointC)
    {
        var vapourHPa = SaturationHPa(dewPointC);
        return 622 * vapourHPa / (pressureHPa - vapourHPa);
    }

    /// <summary>Percent, over water.</summary>
    public static double RelativeHumidityPercent(double temperatureC, double dewPointC) =>
        100 * SaturationHPa(dewPointC) / SaturationHPa(temperatureC);

    /// <summary>Temperature of the air brought dry to 1000 hPa [K].</summary>
    public static double PotentialTemperatureK(double pressureHPa, double temperatureC) =>
        (temperatureC + ZeroCelsiusK) * Math.Pow(1000 / pressureHPa, 0.2854);

    /// <summary>What dry air of the same density would have [K].</summary>
    public static double VirtualTemperatureK(double pressureHPa, double temperatureC, double? dewPointC) =>
        (temperatureC + ZeroCelsiusK) * (1 + (dewPointC is { } dew ? 0.000608 * MixingRatioGPerKg(pressureHPa, dew) : 0));

    /// <summary>Where lifted air becomes saturated (Bolton, Mon. Wea. Rev. 108 (1980) 1046, eq. 15).</summary>
    public static LiftedCondensation LiftedCondensation(double pressureHPa, double temperatureC, double dewPointC)
    {
        var (airK, dewK) = (temperatureC + ZeroCelsiusK, dewPointC + ZeroCelsiusK);
        var levelK = (1 / ((1 / (dewK - 56)) + (Math.Log(airK / dewK) / 800))) + 56;
        return new LiftedCondensation(levelK - ZeroCelsiusK, pressureHPa * Math.Pow(levelK / airK, 1 / 0.2854), (airK - levelK) * HeatCapacity / Gravity);
    }
}

/// <summary>The lifted condensation level.</summary>
/// <param name="HeightM">Above where the air was lifted from.</param>
public readonly record struct LiftedCondensation(double TemperatureC, double PressureHPa, double HeightM);
