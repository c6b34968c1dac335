using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Cli.Showing;

/// <summary>A skyline as a short table: what stands highest in each few degrees.</summary>
internal static class SkylineRows
{
    private const int MostRows = 24;

    /// <summary>How many degrees a row of the table stands for.</summary>
    public static double StepDeg(VisibleSurface view) => BearingAxis.EvenStepDeg(view.Span.Width.Degrees / MostRows);

    /// <summary>Bearing, altitude, distance, height, and where that ground is, as <c>light --target</c> takes it.</summary>
    public static IEnumerable<IReadOnlyList<string>> Of(VisibleSurface view)
    {
        var stepDeg = StepDeg(view);
        var parts = view.Columns.GroupBy(column => Math.Floor(column.Bearing.Degrees / stepDeg));
        return parts.Select(part => Row(view.Eye.Point, part.MaxBy(column => column.Skyline?.AltitudeRad ?? double.NegativeInfinity)!));
    }

    private static IReadOnlyList<string> Row(GeoPoint eye, VisibleColumn column)
    {
        if (column.Skyline is not { } top) return [$"{column.Bearing.Degrees:0.00}°", "no ground", $"grid ends at {Say.Distance(column.GridEdge.Metres)}", "", ""];
        var where = new GroundLine(eye, column.Bearing).At(top.DistanceM);
        return
        [
            $"{column.Bearing.Degrees:0.00}°", $"{double.RadiansToDegrees(top.AltitudeRad):0.00}°", Say.Distance(top.DistanceM), $"{top.HeightM:0} m",
            $"{where.LatitudeDeg:0.00000},{where.LongitudeDeg:0.00000}",
        ];
    }
}
