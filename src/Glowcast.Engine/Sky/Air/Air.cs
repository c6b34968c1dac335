using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Sky;

/// <summary>The state of the air at one place; the light it bends and dims goes with its density, P/T.</summary>
/// <remarks>The default value is no air at all: it bends nothing.</remarks>
public readonly record struct Air(double PressureHPa, double TemperatureC)
{
    private const double FreezingK = 273.15;

    /// <summary>US Standard Atmosphere 1976 at a height above the sea.</summary>
    public static Air Standard(Length height) =>
        new(StandardAtmosphere.PressureHPa(height), StandardAtmosphere.TemperatureK(height) - FreezingK);

    /// <summary>The same weather met at another height: pressure in the ratio, temperature by the difference, of the
    /// standard atmosphere.</summary>
    public Air MovedTo(Length from, Length to)
    {
        var (here, there) = (Standard(from), Standard(to));
        return new Air(PressureHPa * there.PressureHPa / here.PressureHPa, TemperatureC + there.TemperatureC - here.TemperatureC);
    }

    /// <summary>Whether weather can make such air at a height: at most 1.5 times as dense as the standard at the sea, 1.2
    /// times at 9000 m. A pressure reduced to sea level, given for a mountain, fails here.</summary>
    public bool CanStandAt(Length height) =>
        TemperatureC > -FreezingK && ShareOfStandard(height) is >= 0 and var share && share <= 1.5 - (Math.Clamp(height.Metres, 0, 9000) / 30_000);

    /// <summary>Its density as a share of the standard air's at the same height.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Such air <see cref="CanStandAt">cannot stand</see> there.</exception>
    internal double DensityAgainstStandard(Length height) => CanStandAt(height)
        ? ShareOfStandard(height)
        : throw new ArgumentOutOfRangeException(nameof(height), this, $"Such air cannot stand at {height}; the standard there is {Standard(height)}.");

    private double ShareOfStandard(Length height)
    {
        var standard = Standard(height);
        return PressureHPa / standard.PressureHPa * (standard.TemperatureC + FreezingK) / (TemperatureC + FreezingK);
    }
}
