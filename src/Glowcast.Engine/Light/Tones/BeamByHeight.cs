using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Light;

/// <summary>The sun's beam at one moment on ground of different heights: worked out every 250 m, its logarithm straight between.</summary>
internal sealed class BeamByHeight
{
    private const double StepM = 250;

    private readonly double lowestM;
    private readonly double[] logLux;

    /// <param name="airless">Altitude of the sun's centre at the place that stands for the scene.</param>
    /// <param name="air">At a height; null for standard air.</param>
    /// <param name="ofSun">Of the sun's beam, what the source gives: 1 for the sun itself.</param>
    public BeamByHeight(Angle airless, double lowestM, double highestM, Haze haze, Func<Length, Air?> air, double distanceAu, double ofSun = 1)
    {
        this.lowestM = lowestM;
        logLux = new double[(int)Math.Ceiling((highestM - lowestM) / StepM) + 2];
        for (var i = 0; i < logLux.Length; i++)
        {
            var height = Length.FromMetres(lowestM + (i * StepM));
            var beam = DirectBeam.At(Refraction.ToApparent(airless, height, air(height)), height, haze, air(height), distanceAu: distanceAu);
            logLux[i] = Math.Log(ofSun * beam.NormalIlluminanceLux);
        }
    }

    public double Lux(double heightM)
    {
        var step = Math.Clamp((heightM - lowestM) / StepM, 0, logLux.Length - 1.001);
        var i = (int)step;
        return Math.Exp(logLux[i] + ((step - i) * (logLux[i + 1] - logLux[i])));
    }
}
