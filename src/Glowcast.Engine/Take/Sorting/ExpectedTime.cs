namespace Glowcast.Engine.Take;

/// <summary>A time between two frames as it should be: log-normal about what the rhythm says, blurred by the step of the clock.</summary>
/// <remarks>docs/model.md, Take eq. 3. Densities are over the logarithm of the time. Made once, asked often.</remarks>
internal readonly struct ExpectedTime
{
    /// <summary>Of a time told by a clock that cuts off, in its steps: the difference of two even spreads.</summary>
    public const double ClockStepSpread = 0.41;

    private const double ShortestS = 0.05;
    private const double Pause = -6;
    private const double LongPause = 2.5;
    private const double PauseFrom = 1.2;
    private const double ShorterThanPause = -9;

    private readonly double logExpected;
    private readonly double perSigma;
    private readonly double atPeak;

    /// <param name="spread">Of steps among one another: the standard deviation of their logarithm.</param>
    /// <param name="clockStepS">The finest step of the camera's clock.</param>
    public ExpectedTime(double expectedS, double spread, double clockStepS)
    {
        var sigma = double.Hypot(spread, ClockStepSpread * clockStepS / Math.Max(expectedS, clockStepS));
        logExpected = Math.Log(Math.Max(expectedS, ShortestS));
        perSigma = 1 / sigma;
        atPeak = -Math.Log(sigma * Math.Sqrt(2 * Math.PI));
    }

    /// <summary>The logarithm of a time, none shorter than the clock can tell from nothing.</summary>
    public static double LogOf(double gapS, double clockStepS) => Math.Log(Math.Max(gapS, Math.Max(ShortestS, clockStepS / 3)));

    /// <summary>The logarithm of the density at a time that is neither paused nor broken.</summary>
    public double At(double logGap)
    {
        var off = (logGap - logExpected) * perSigma;
        return atPeak - (off * off / 2);
    }

    /// <summary>The same where the photographer may have paused, which makes the time longer.</summary>
    public double WithPause(double logGap)
    {
        var longer = logGap - logExpected;
        return TakeOdds.LogSum(At(logGap), longer > Math.Log(PauseFrom) ? Pause - Math.Max(0, LongPause * (longer - Math.Log(3))) : ShorterThanPause);
    }

    /// <summary>The same where single pictures were shot between, which may take any time.</summary>
    public double Broken(double logGap) => TakeOdds.LogSum(At(logGap), logGap > logExpected ? TakeOdds.AnyTime : ShorterThanPause);
}
