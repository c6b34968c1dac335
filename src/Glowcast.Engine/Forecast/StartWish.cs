using Glowcast.Engine.Light;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>When a photographer means to begin.</summary>
public abstract record StartWish
{
    /// <summary>At a time of the lookout's clocks, on whatever date.</summary>
    /// <param name="Time">Local; mean solar time where no zone is known.</param>
    public sealed record OnTheClock(LocalTime Time) : StartWish;

    /// <summary>So long after the first window of a half of the day opens; negative for before. Another date keeps its place in the light.</summary>
    public sealed record AfterTheLight(DayHalf Half, Duration After) : StartWish;
}
