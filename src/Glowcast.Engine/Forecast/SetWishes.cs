using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>What the photographer asks of a set besides its light.</summary>
/// <param name="ToleranceStops">How far the brightness may drift from the first frame of a set to its last.</param>
/// <param name="Start">When they mean to begin; null to be advised.</param>
/// <param name="DarkStrips">Bearings on which the ridge may stay dark.</param>
/// <param name="ChooseExposure">Whether every window is shot with the exposure that its light asks for.</param>
/// <param name="OnTheClock">The moment of a time of the lookout's clocks on the day.</param>
internal sealed record SetWishes(
    double ToleranceStops, ChanceBounds Bounds, StartWish? Start, IReadOnlyList<BearingSpan> DarkStrips, bool ChooseExposure, Func<LocalTime, Instant> OnTheClock)
{
    public static SetWishes Of(Plan plan, LocalDate date) => new(
        plan.ExposureDriftStops, plan.Chances, plan.StartAt, plan.DarkStrips, plan.ChooseExposure, time => LocalDay.At(date + time, plan.Lookout!.Point, plan.Lookout.Zone));
}
