namespace Glowcast.Engine.Weather;

/// <summary>One level of a profile.</summary>
/// <param name="HeightM">Above mean sea level.</param>
/// <param name="DewPointC">Never above the temperature.</param>
/// <param name="WindKt">Null where the level has none.</param>
public readonly record struct ProfileLevel(double PressureHPa, double HeightM, double TemperatureC, double DewPointC, double? WindFromDeg, double? WindKt)
{
    /// <summary>Temperature less dew point: 0 in cloud.</summary>
    public double DepressionC => TemperatureC - DewPointC;
}
