using Glowcast.Engine.Weather;

namespace Glowcast.Engine.Tests.Weather;

/// <summary>Invented profiles, level by level.</summary>
internal static class MadeProfile
{
    private const double ScaleHeightM = 8000;

    /// <param name="levels">Height [m], temperature, dew point [°C].</param>
    public static Profile Of(params (double HeightM, double TemperatureC, double DewPointC)[] levels) => Of(0, levels);

    public static Profile Of(double windKt, params (double HeightM, double TemperatureC, double DewPointC)[] levels) => Profile.Of(
        new Sounding("made", [.. levels.Select(level => new SoundingLevel(PressureHPa(level.HeightM), level.HeightM, level.TemperatureC, level.DewPointC, 180, windKt))]), "made");

    public static double PressureHPa(double heightM) => 1013.25 * Math.Exp(-heightM / ScaleHeightM);

    /// <summary>A fog of 300 m on ground at 500 m under a strong inversion, dry above, calm.</summary>
    public static Profile Fog(double windKt = 3) => Of(windKt, (500, 0, -0.2), (700, -1, -1.2), (900, 5, -5), (1500, 3, -15), (3000, -6, -25), (5000, -18, -40));

    /// <summary>A stratus from 800 to 1300 m under an inversion that sinking air made, over mild ground at 200 m.</summary>
    public static Profile Stratus() => Of(8, (200, 12, 7), (800, 7, 6.4), (1200, 4, 3.8), (1250, 4.2, 3.8), (1600, 9, -8), (3000, 2, -20), (5000, -10, -35));
}
