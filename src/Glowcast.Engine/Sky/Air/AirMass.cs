using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Sky;

/// <summary>How much air a ray of sunlight passes, along its refracted path, down to its perigee and out again where it
/// comes from below the horizontal.</summary>
/// <remarks>∫(n − 1) ds of rays traced through the US Standard Atmosphere 1976 at 0.7 µm (<see cref="RayTrace"/>; the
/// wavelength of Kasten &amp; Young 1989), tabulated at first use over the heights and altitudes of <see cref="Refraction"/>.</remarks>
public static class AirMass
{
    private static readonly RayTrace Trace = new(0.7);

    private static readonly Lazy<SplineSurface> LogExcess = new(() => new SplineSurface(
        RayGrid.Altitudes,
        RayGrid.Heights,
        RayGrid.Tabulate(Trace, path => Math.Log(path.OpticalExcess.Metres), signBeyondZenith: 1)));

    private static readonly double SeaLevelColumnM = Trace.Follow(Angle.FromDegrees(90), Length.Zero).OpticalExcess.Metres;

    /// <summary>In vertical columns of standard air above the sea.</summary>
    /// <param name="air">The air at the observer, whose pressure scales the air passed; without it, standard at that height.</param>
    public static double InSeaLevelColumns(Angle apparentAltitude, Length observerHeight, Air? air = null) =>
        InSeaLevelColumns(apparentAltitude.Radians, observerHeight.Metres) * PressureShare(air, observerHeight);

    /// <summary>In vertical columns of the air above the observer: 1 at the zenith at every height.</summary>
    public static double Relative(Angle apparentAltitude, Length observerHeight) =>
        InSeaLevelColumns(apparentAltitude.Radians, observerHeight.Metres) / InSeaLevelColumns(Math.PI / 2, observerHeight.Metres);

    internal static double InSeaLevelColumns(double apparentRad, double heightM)
    {
        var inRangeM = RayGrid.InRangeM(heightM);
        return Math.Exp(LogExcess.Value.At(RayGrid.ScaleOf(Math.Min(apparentRad, Math.PI / 2), inRangeM), inRangeM)) / SeaLevelColumnM;
    }

    private static double PressureShare(Air? air, Length height) => air is not { } given
        ? 1
        : given.CanStandAt(height)
            ? given.PressureHPa / StandardAtmosphere.PressureHPa(height)
            : throw new ArgumentOutOfRangeException(nameof(air), air, $"Such air cannot stand at {height}.");
}
