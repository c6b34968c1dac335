using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Sky;

/// <summary>The grid on which quantities of sun rays are tabulated: observer height by altitude above the lowest
/// useful ray.</summary>
/// <remarks>Heights run from −500 to 9000 m. The lowest useful ray grazes between −1000 and −1500 m; no land lies below −430 m, so
/// no skyline can be lower. Rays below it take its values, which continues every quantity without a jump.</remarks>
internal static class RayGrid
{
    private const double LowestM = -500;
    private const double HighestM = 9000;
    private const double FloorHeightM = -1500;

    /// <summary>Squared depression, per metre above the floor, of the ray that grazes it: 2(1 − k)/R with k = 0.17.</summary>
    private const double FloorPerM = 2 * (1 - 0.17) / RayTrace.EarthRadiusM;

    /// <summary>The altitude scale is logarithmic from this far below the floor: fine there, coarse near the zenith.</summary>
    private const double ScaleRad = 0.03;

    private const double HeightStepM = 200;
    private const double AltitudeStep = 0.035;

    /// <summary>Cells beyond the heights and altitudes in use, which keep the ends of the splines away from them.</summary>
    private const int Margin = 4;

    public static EvenAxis Heights { get; } = EvenAxis.Covering(LowestM, HighestM, HeightStepM, Margin);

    public static EvenAxis Altitudes { get; } =
        EvenAxis.Covering(Scale(0), Scale((Math.PI / 2) - FloorRad(HighestM)), AltitudeStep, Margin);

    /// <summary>The apparent altitude [rad] of the lowest useful ray.</summary>
    public static double FloorRad(double heightM) => -Math.Sqrt(FloorPerM * (heightM - FloorHeightM));

    /// <summary>The place of an apparent altitude on <see cref="Altitudes"/>; the floor's own for anything below it.</summary>
    public static double ScaleOf(double apparentRad, double heightM) => Scale(Math.Max(0, apparentRad - FloorRad(heightM)));

    public static double Scale(double aboveFloorRad) => Math.Log(ScaleRad + aboveFloorRad);

    public static double AboveFloorRad(double scale) => Math.Exp(scale) - ScaleRad;

    public static double InRangeM(double heightM) => Math.Clamp(heightM, LowestM, HighestM);

    /// <summary>Traces a ray for every knot and keeps one quantity of it.</summary>
    /// <param name="signBeyondZenith">1 when the quantity is the same on both sides of the zenith, −1 when it is opposite.</param>
    public static double[,] Tabulate(RayTrace trace, Func<RayPath, double> quantity, double signBeyondZenith)
    {
        var values = new double[Altitudes.Count, Heights.Count];
        Parallel.For(0, Heights.Count, h =>
        {
            var heightM = Heights.Knot(h);
            for (var a = 0; a < Altitudes.Count; a++) values[a, h] = Traced(FloorRad(heightM) + AboveFloorRad(Altitudes.Knot(a)), heightM);
        });
        return values;

        double Traced(double apparentRad, double heightM) => apparentRad <= Math.PI / 2
            ? quantity(trace.Follow(Angle.FromRadians(apparentRad), Length.FromMetres(heightM)))
            : signBeyondZenith * Traced(Math.PI - apparentRad, heightM);
    }
}
