using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Forecast;

/// <summary>One end of a stretch of possible starts: the exposure that allows none beyond it, and the light it waits for or loses.</summary>
/// <param name="StartS">Of the sets.</param>
/// <param name="LightS">The moment of that light.</param>
/// <param name="IsRidge">It is the ridge's light that comes or goes then; else the valley's.</param>
internal readonly record struct StartEdge(double StartS, double LightS, bool IsRidge, PlannedShot Shot);

/// <summary>Starts from which every exposure has its light, from the first to the last; where there is none, what they miss one another by.</summary>
internal sealed record StartRange(StartEdge First, StartEdge Last, EdgeDoubts Doubts)
{
    public EdgeDoubt FirstDoubt => Doubts.At(First.LightS, First.IsRidge);

    public EdgeDoubt LastDoubt => Doubts.At(Last.LightS, Last.IsRidge);

    /// <summary>Negative where no start is possible.</summary>
    public double LengthS => Last.StartS - First.StartS;

    public bool IsPossible => LengthS > 0;

    public bool IsUnknownBeyond => FirstDoubt.UnknownBeyond is not null || LastDoubt.UnknownBeyond is not null;

    /// <summary>Ground past the edge of the grid, as high as the highest along it, would move one end by more than that is unsure by.</summary>
    public bool IsUnknown => FirstDoubt.IsUnknown || LastDoubt.IsUnknown;

    /// <summary>Were that ground some tenths higher or lower, or the end as much surer, <see cref="IsUnknown"/> could be otherwise.</summary>
    public bool IsUnknownClose => IsNearly(FirstDoubt) || IsNearly(LastDoubt);

    private const double NearlyFactor = 2;

    private static bool IsNearly(EdgeDoubt doubt) => doubt.UnknownMoveS > doubt.CombinedS / NearlyFactor && doubt.UnknownMoveS < doubt.CombinedS * NearlyFactor;

    private double Correlation => EdgeDoubt.Correlation(FirstDoubt, LastDoubt, First.IsRidge == Last.IsRidge);

    /// <summary>The chance that all exposures have their light (docs/model.md, F16).</summary>
    public double ChanceOf(double startS) => BivariateNormal.Below(
        (startS - First.StartS) / FirstDoubt.CombinedS, (Last.StartS - startS) / LastDoubt.CombinedS, -Correlation);

    /// <summary>Where both ends are as far off as they are unsure.</summary>
    public double SafestS => First.StartS + (LengthS * FirstDoubt.CombinedS / (FirstDoubt.CombinedS + LastDoubt.CombinedS));

    /// <summary>With both ends moved apart by what a table may be off by: as much as each is unsure, but at least so many seconds.</summary>
    /// <param name="way">1 apart, −1 together.</param>
    public StartRange Widened(double leastS, int way) => this with
    {
        First = First with { StartS = First.StartS - (way * Math.Max(leastS, FirstDoubt.CombinedS)) },
        Last = Last with { StartS = Last.StartS + (way * Math.Max(leastS, LastDoubt.CombinedS)) },
    };
}
