namespace Glowcast.Engine.Weather;

/// <summary>One level of a sounding as it was reported; what a report leaves out is null.</summary>
/// <param name="HeightM">Geopotential, above mean sea level.</param>
/// <param name="WindFromDeg">Where the wind comes from, clockwise from true north.</param>
/// <param name="WindKt">Its speed in knots.</param>
public readonly record struct SoundingLevel(
    double PressureHPa, double? HeightM = null, double? TemperatureC = null, double? DewPointC = null, double? WindFromDeg = null, double? WindKt = null);
