using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Field.Magnetism;

/// <summary>What turns true bearings into those of a compass at one place and date.</summary>
/// <param name="Angle">From true north to magnetic north, east positive.</param>
/// <param name="Date">It changes by up to a few tenths of a degree a year.</param>
/// <param name="Uncertainty">One standard deviation; null where it was given by hand.</param>
public sealed record Declination(Angle Angle, LocalDate Date, Angle? Uncertainty, CompassUse Compass)
{
    /// <summary>By the World Magnetic Model.</summary>
    /// <exception cref="BadInputException">The model does not hold on that date.</exception>
    public static Declination Modelled(Place place, LocalDate date)
    {
        var field = WorldMagneticModel.At(place, date);
        return new Declination(field.Declination, date, field.DeclinationUncertainty, field.Compass);
    }

    /// <summary>As read from a chart or a known bearing.</summary>
    public static Declination ByHand(Angle angle, LocalDate date) => new(angle, date, null, CompassUse.Good);

    public bool IsByHand => Uncertainty is null;

    /// <summary>What a compass without a declination set shows for a true bearing.</summary>
    public Azimuth Magnetic(Azimuth trueBearing) => trueBearing - Angle;
}
