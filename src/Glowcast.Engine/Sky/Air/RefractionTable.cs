using MathNet.Numerics.Interpolation;

namespace Glowcast.Engine.Sky;

/// <summary>Refraction in standard air by apparent and by airless altitude, both from the same traced rays.</summary>
internal sealed class RefractionTable
{
    private static readonly double FloorScale = RayGrid.Scale(0);

    private readonly SplineSurface byApparent;
    private readonly SplineSurface byAirless;

    public RefractionTable(RayTrace trace)
    {
        var refractionRad = RayGrid.Tabulate(trace, path => path.Refraction.Radians, signBeyondZenith: -1);
        byApparent = new SplineSurface(RayGrid.Altitudes, RayGrid.Heights, refractionRad);
        byAirless = new SplineSurface(RayGrid.Altitudes, RayGrid.Heights, Inverted(refractionRad));
    }

    public double OfApparentRad(double apparentRad, double heightM) =>
        byApparent.At(RayGrid.ScaleOf(apparentRad, heightM), heightM);

    public double OfAirlessRad(double airlessRad, double heightM)
    {
        var atFloorRad = byApparent.At(FloorScale, heightM);
        var aboveFloorRad = airlessRad - (RayGrid.FloorRad(heightM) - atFloorRad);
        return aboveFloorRad <= 0 ? atFloorRad : byAirless.At(RayGrid.Scale(aboveFloorRad), heightM);
    }

    /// <summary>The same rays on even steps of airless altitude above the airless altitude of the lowest useful ray.</summary>
    private double[,] Inverted(double[,] refractionRad)
    {
        var altitudes = RayGrid.Altitudes;
        var aboveFloorRad = Enumerable.Range(0, altitudes.Count).Select(a => RayGrid.AboveFloorRad(altitudes.Knot(a))).ToArray();
        var inverted = new double[altitudes.Count, RayGrid.Heights.Count];
        for (var h = 0; h < RayGrid.Heights.Count; h++)
        {
            var line = Enumerable.Range(0, altitudes.Count).Select(a => refractionRad[a, h]).ToArray();
            var atFloorRad = byApparent.At(FloorScale, RayGrid.Heights.Knot(h));
            var scale = aboveFloorRad.Zip(line, (above, refraction) => RayGrid.Scale(above + atFloorRad - refraction)).ToArray();
            var spline = CubicSpline.InterpolateNaturalSorted(scale, line);
            for (var a = 0; a < altitudes.Count; a++) inverted[a, h] = spline.Interpolate(altitudes.Knot(a));
        }
        return inverted;
    }
}
