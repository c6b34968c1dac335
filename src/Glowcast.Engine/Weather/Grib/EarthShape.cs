namespace Glowcast.Engine.Weather;

/// <summary>The earth that a projected grid was drawn on (code table 3.2).</summary>
/// <param name="MajorM">Half the greater axis, or the radius.</param>
/// <param name="Eccentricity">0 for a sphere.</param>
internal readonly record struct EarthShape(double MajorM, double Eccentricity)
{
    public static EarthShape Of(Octets grid) => grid.U8(15) switch
    {
        0 => new(6_367_470, 0),
        1 => new(Sensible(Scaled(grid, 16)), 0),
        2 => OfAxes(6_378_160, 6_356_775),
        3 => OfAxes(1000 * Scaled(grid, 21), 1000 * Scaled(grid, 26)),
        4 => OfAxes(6_378_137, 6_356_752.314140),
        5 => OfAxes(6_378_137, 6_356_752.314245),
        6 => new(6_371_229, 0),
        7 => OfAxes(Scaled(grid, 21), Scaled(grid, 26)),
        8 => new(6_371_200, 0),
        9 => OfAxes(6_377_563.396, 6_356_256.909),
        var code => throw new GribDamage($"Its earth is of shape {code}, which is not known here; shapes 0 to 9 of code table 3.2 are."),
    };

    private static double Scaled(Octets grid, int octet) => grid.U32(octet + 1) * Math.Pow(10, -grid.S8(octet));

    private static EarthShape OfAxes(double majorM, double minorM) =>
        Sensible(minorM) <= Sensible(majorM) ? new(majorM, Math.Sqrt(1 - (minorM * minorM / (majorM * majorM)))) : throw new GribDamage("Its earth is longer than it is wide.");

    private static double Sensible(double metres) =>
        metres is > 6.2e6 and < 6.5e6 ? metres : throw new GribDamage($"Its earth has a radius of {metres:0} m, which cannot be.");
}
