using Glowcast.Engine.Measures;

namespace Glowcast.Field.Magnetism;

/// <summary>The earth's magnetic field at a place [nT]: towards true north, east and down.</summary>
public readonly record struct MagneticField(double NorthNt, double EastNt, double DownNt)
{
    // Below this a compass is of no use; up to the second it should be used with care (WMM2025 report, blackout and caution zones).
    private const double UselessBelowNt = 2000;
    private const double DoubtfulBelowNt = 6000;

    /// <summary>What moves a compass needle.</summary>
    public double HorizontalNt => double.Hypot(NorthNt, EastNt);

    /// <summary>From true north to magnetic north, east positive.</summary>
    public Angle Declination => Angle.FromRadians(Math.Atan2(EastNt, NorthNt));

    /// <summary>Below the horizontal.</summary>
    public Angle Inclination => Angle.FromRadians(Math.Atan2(DownNt, HorizontalNt));

    public CompassUse Compass => HorizontalNt switch
    {
        < UselessBelowNt => CompassUse.Useless,
        < DoubtfulBelowNt => CompassUse.Doubtful,
        _ => CompassUse.Good,
    };

    /// <summary>One standard deviation of the declination, from the error model of WMM2025:
    /// √(0.26² + (5417 / H)²) degrees, with H in nanotesla.</summary>
    public Angle DeclinationUncertainty => Angle.FromDegrees(Math.Min(180, double.Hypot(0.26, 5417 / HorizontalNt)));
}

/// <summary>How far a compass can be trusted near a magnetic pole.</summary>
public enum CompassUse
{
    Good,
    Doubtful,
    Useless,
}
