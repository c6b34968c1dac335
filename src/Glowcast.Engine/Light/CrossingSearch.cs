namespace Glowcast.Engine.Light;

/// <summary>Closes in on the moment between two looks at which the sun crosses a level above the horizon: says when to look next, and is told what was
/// seen.</summary>
/// <remarks>The secant through the last two looks as long as it stays between the two sides, else false position with the value of an end that stays halved
/// (the Illinois rule: Dowell and Jarratt, BIT 11, 1971).</remarks>
internal struct CrossingSearch
{
    // False position closes in within a few rounds; where the horizon jumps, halving has the last word.
    private const int RoundsOfFalsePosition = 8;

    // Over no longer a time is a rate relied upon.
    private const double LongestLeapS = 2;

    // Nor upon a greater one: it is that between the two sides of a jump.
    private const double FastestRadPerS = 3 * ClearanceTrace.SunRadPerS;

    private readonly double level;
    private readonly double toleranceS;
    private readonly bool rises;

    private double fromS;
    private double from;
    private double toS;
    private double to;
    private int moved;
    private int round;

    // The look before, and how fast the sun rose over the horizon between the two before that.
    private double lastS;
    private double last;
    private double rate;

    /// <param name="before">Height of the sun's centre above the horizon at the first look, in semidiameters.</param>
    /// <param name="after">And at the second one, on the other side of the level.</param>
    /// <param name="level">In semidiameters.</param>
    /// <param name="toleranceS">How closely the moment is found [s].</param>
    public CrossingSearch(double beforeS, double before, double afterS, double after, double level, double semidiameterRad, double toleranceS)
    {
        (this.level, this.toleranceS, fromS, toS) = (level, toleranceS, beforeS, afterS);
        // A kept horizon that the sun never comes near is only said to be low or high: no end is farther off than the sun could go meanwhile.
        var most = ClearanceTrace.SunRadPerS * (toS - fromS) / semidiameterRad;
        (from, to) = (Math.Clamp(before - level, -most, most), Math.Clamp(after - level, -most, most));
        rises = to > 0;
        AtS = FalsePosition();
        rate = (to - from) / (toS - fromS);
        lastS = double.NaN;
    }

    /// <summary>When to look; in the end, the moment.</summary>
    public double AtS { get; private set; }

    /// <param name="sun">As it was seen then.</param>
    /// <returns>Whether the moment is found.</returns>
    public bool Take(in SunSighting sun)
    {
        var here = sun.InSemidiameters - level;
        if (here > 0 == rises)
        {
            (toS, to, from) = (AtS, here, moved > 0 ? from / 2 : from);
            moved = 1;
        }
        else
        {
            (fromS, from, to) = (AtS, here, moved < 0 ? to / 2 : to);
            moved = -1;
        }
        var newRate = double.IsNaN(lastS) || lastS == AtS ? rate : (here - last) / (AtS - lastS);
        var secantS = AtS - (here / newRate);
        var isSecant = round < RoundsOfFalsePosition && secantS >= fromS && secantS <= toS;
        var nextS = isSecant ? secantS : round < RoundsOfFalsePosition ? FalsePosition() : (fromS + toS) / 2;
        var isFound = toS - fromS <= toleranceS || (isSecant && !double.IsNaN(lastS) && IsCloseAt(newRate, nextS, sun.SemidiameterRad)) || IsClose(nextS, here, sun.SemidiameterRad);
        (AtS, lastS, last, rate) = (nextS, AtS, here, newRate);
        round++;
        return isFound;
    }

    // What is still to go is wrong by as much as the rate may be; it has just changed by so much.
    private readonly bool IsCloseAt(double newRate, double nextS, double semidiameterRad) =>
        Math.Abs(newRate) * semidiameterRad <= FastestRadPerS
        && Math.Abs(nextS - AtS) <= LongestLeapS && Math.Abs(nextS - AtS) * Math.Abs((newRate / rate) - 1) <= toleranceS / 2;

    private readonly bool IsClose(double nextS, double here, double semidiameterRad) =>
        Math.Abs(here) * semidiameterRad <= toleranceS * ClearanceTrace.SunRadPerS && Math.Abs(nextS - AtS) <= toleranceS;

    private readonly double FalsePosition() => ((fromS * to) - (toS * from)) / (to - from);
}
