namespace Glowcast.Engine.Sky;

/// <summary>How standard air bends light of one colour: n(h) of the US Standard Atmosphere 1976, dry.</summary>
/// <remarks>Refractivity: IAG resolution 3 (1999), phase index at 0 °C and 1013.25 hPa, taken as proportional to P/T.</remarks>
internal sealed class RefractiveAir(double wavelengthUm)
{
    private readonly double refractivityKPerHPa = IagRefractivity(wavelengthUm) * 273.15 / StandardAtmosphere.SeaLevelPressureHPa;

    /// <summary>n − 1, and its change with geometric height [1/m].</summary>
    public (double Excess, double SlopePerM) At(AtmosphereLayer layer, double heightM)
    {
        var geopotentialM = StandardAtmosphere.GeopotentialM(heightM);
        var temperatureK = layer.TemperatureK(geopotentialM);
        var excess = refractivityKPerHPa * layer.PressureHPa(geopotentialM) / temperatureK;
        var relativeSlope = -(AtmosphereLayer.HydrostaticKPerM + layer.LapseKPerM) / temperatureK;
        return (excess, excess * relativeSlope * StandardAtmosphere.GeopotentialSlope(heightM));
    }

    private static double IagRefractivity(double wavelengthUm)
    {
        var inverseSquare = 1 / (wavelengthUm * wavelengthUm);
        return (287.6155 + (inverseSquare * (1.62887 + (inverseSquare * 0.01360)))) * 1e-6;
    }
}
