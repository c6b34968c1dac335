namespace Glowcast.Engine.Sky;

/// <summary>Air in hydrostatic balance whose temperature changes evenly with geopotential height.</summary>
internal sealed record AtmosphereLayer(double BaseM, double LapseKPerM, double BaseTemperatureK, double BasePressureHPa)
{
    public double TemperatureK(double geopotentialM) => BaseTemperatureK + (LapseKPerM * (geopotentialM - BaseM));

    /// <summary>US Standard Atmosphere 1976, eqs. 33a and 33b.</summary>
    public double PressureHPa(double geopotentialM) => LapseKPerM == 0
        ? BasePressureHPa * Math.Exp(-StandardAtmosphere.HydrostaticKPerM * (geopotentialM - BaseM) / BaseTemperatureK)
        : BasePressureHPa * Math.Pow(BaseTemperatureK / TemperatureK(geopotentialM), StandardAtmosphere.HydrostaticKPerM / LapseKPerM);
}
