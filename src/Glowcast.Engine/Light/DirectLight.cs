using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>Direct sunlight on one point of the ground over a day.</summary>
/// <param name="Target">The lit point.</param>
/// <param name="AnyLimb">When any part of the disc stands above the point's horizon.</param>
/// <param name="Centre">When its centre does.</param>
/// <param name="WholeDisc">When all of it does.</param>
public sealed record DirectLight(
    Place Target, IReadOnlyList<LitInterval> AnyLimb, IReadOnlyList<LitInterval> Centre, IReadOnlyList<LitInterval> WholeDisc)
{
    /// <summary>Searches one day; light or shade shorter than two seconds may be missed.</summary>
    public static DirectLight On(Place target, ElevationGrid grid, SightModel model, SunTrack day)
    {
        ArgumentNullException.ThrowIfNull(day);
        var ground = new SunOverGround(day, grid, model);
        ground.StandAt(target);
        var trace = new ClearanceTrace(ground, SearchFineness.OnePoint, -1, 1);
        return new DirectLight(target, Above(-1), Above(0), Above(1));

        List<LitInterval> Above(double level) => trace.Above(level).ConvertAll(stretch => new LitInterval(
            new Interval(day.At(stretch.Start.Seconds), day.At(stretch.End.Seconds)),
            LightEdge.Of(stretch.Start, ground, target.Height),
            LightEdge.Of(stretch.End, ground, target.Height)));
    }
}

/// <summary>A stretch of direct light: start included, end excluded.</summary>
/// <param name="Start">What lets the light in; null where the day begins in the light.</param>
/// <param name="End">What takes it away; null where the day ends in the light.</param>
public sealed record LitInterval(Interval Time, LightEdge? Start, LightEdge? End);

/// <summary>What stands in the sun's way when light comes or goes.</summary>
/// <param name="SunAzimuth">True bearing of the sun.</param>
/// <param name="SunAltitude">Apparent altitude of its centre at the lit point.</param>
/// <param name="HorizonDistance">How far the ground (or assumed earth) is that stands there.</param>
/// <param name="IsBeyondGrid">It is the earth assumed past the grid's edge: what really stands there is not known.</param>
/// <param name="Uncertainty">Of the moment.</param>
public sealed record LightEdge(Azimuth SunAzimuth, Angle SunAltitude, Length? HorizonDistance, bool IsBeyondGrid, TimingUncertainty Uncertainty)
{
    internal static LightEdge? Of(HorizonCrossing crossing, SunOverGround ground, Length height) => crossing.Sun is { } sun
        ? new LightEdge(
            Azimuth.FromRadians(sun.AzimuthRad),
            Angle.FromRadians(sun.ApparentRad),
            double.IsNaN(sun.HorizonM) ? null : Length.FromMetres(sun.HorizonM),
            sun.IsBeyondGrid,
            TimingUncertainty.At(crossing, ground, height))
        : null;
}
