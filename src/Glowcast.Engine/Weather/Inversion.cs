using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>Where an inversion begins.</summary>
public enum InversionType
{
    /// <summary>At the ground.</summary>
    Surface,

    /// <summary>Above it.</summary>
    Elevated,
}

/// <summary>What made an inversion, as far as the profile tells.</summary>
public enum InversionOrigin
{
    /// <summary>Its base lies less than 100 m above the ground: air that cooled there.</summary>
    Ground,

    /// <summary>Sinking air: the dew point falls through it and dry air lies above.</summary>
    Subsidence,

    /// <summary>Warm moist air over cold: moist from its base to beyond its top, so no deck ends at it.</summary>
    Frontal,

    /// <summary>Neither shows.</summary>
    Unclear,
}

/// <summary>A layer in which the air grows warmer with height.</summary>
public sealed record Inversion(InversionType Type, InversionOrigin Origin, ProfileLevel BaseLevel, ProfileLevel TopLevel)
{
    public Length Base => Length.FromMetres(BaseLevel.HeightM);

    public Length Top => Length.FromMetres(TopLevel.HeightM);

    /// <summary>Temperature at the top less that at the base [K].</summary>
    public double StrengthC => TopLevel.TemperatureC - BaseLevel.TemperatureC;

    public Length Depth => Top - Base;
}
