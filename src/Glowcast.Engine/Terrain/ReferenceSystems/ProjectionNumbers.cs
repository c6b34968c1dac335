using Glowcast.Engine.Measures;
using ProjNet.CoordinateSystems;

namespace Glowcast.Engine.Terrain;

/// <summary>The numbers that fix a map projection of a given method.</summary>
/// <param name="OriginLatitudeDeg">Where the northing is the false one.</param>
/// <param name="OriginLongitudeDeg">The central meridian.</param>
public sealed record ProjectionNumbers(double OriginLatitudeDeg, double OriginLongitudeDeg)
{
    /// <summary>Standard parallels; only the conical methods have them.</summary>
    public double Parallel1Deg { get; init; }

    public double Parallel2Deg { get; init; }

    /// <summary>On the central meridian; only transverse Mercator has one.</summary>
    public double Scale { get; init; } = 1;

    public double FalseEastingM { get; init; }

    public double FalseNorthingM { get; init; }

    internal void MustSuit(ProjectionMethod method)
    {
        var faults = new Faults();
        faults.InRange(OriginLatitudeDeg, "origin latitude", -90, 90);
        faults.InRange(OriginLongitudeDeg, "central meridian", -360, 360);
        faults.InRange(FalseEastingM, "false easting", -1e8, 1e8);
        faults.InRange(FalseNorthingM, "false northing", -1e8, 1e8);
        faults.InRange(Scale, "scale", 0.9, 1.1);
        if (method != ProjectionMethod.TransverseMercator)
        {
            faults.InRange(Parallel1Deg, "first standard parallel", -89, 89);
            faults.InRange(Parallel2Deg, "second standard parallel", -89, 89);
            if (Math.Abs(Parallel1Deg + Parallel2Deg) < 1)
                faults.Add("standard parallels", $"Must not lie on both sides of the equator at the same latitude; got {Parallel1Deg}° and {Parallel2Deg}°.");
        }
        faults.ThrowIfAny();
    }

    internal List<ProjectionParameter> Parameters(ProjectionMethod method)
    {
        List<ProjectionParameter> parameters =
        [
            new("latitude_of_origin", OriginLatitudeDeg),
            new("central_meridian", OriginLongitudeDeg),
            new("false_easting", FalseEastingM),
            new("false_northing", FalseNorthingM),
        ];
        if (method == ProjectionMethod.TransverseMercator)
        {
            parameters.Add(new("scale_factor", Scale));
            return parameters;
        }
        parameters.Add(new("standard_parallel_1", Parallel1Deg));
        parameters.Add(new("standard_parallel_2", Parallel2Deg));
        return parameters;
    }
}
