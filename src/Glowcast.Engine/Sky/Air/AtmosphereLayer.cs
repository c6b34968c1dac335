namespace Glowcast.Engine.Sky;

/// <summary>Air in hydrostatic balance whose temperature changes evenly with geopotential height.</summary>
internal sealed record AtmosphereLayer(double BaseM, double LapseKPerM, double BaseTemperatureK, double BasePressureHPa)
{
    /// <summary>g₀·M/R* of the 1976 standard [K/m].</summary>
    public const double HydrostaticKPerM = 9.80665 * 0.0289644 / 8.31432;

    public double TemperatureK(double geopotentialM) => BaseTemperatureK + (LapseKPerM * (geopotentialM - BaseM));

    /// <summary>US Standard Atmosphere 1976, eqs. 33a and 33b.</summary>
    public double PressureHPa(double geopotentialM) => LapseKPerM == 0
        ? BasePressureHPa * Math.Exp(-HydrostaticKPerM * (geopotentialM - BaseM) / BaseTemperatureK)
        : BasePressureHPa * Math.Pow(BaseTemperatureK / TemperatureK(geopotentialM), HydrostaticKPerM / LapseKPerM);
}
