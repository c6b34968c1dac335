namespace Glowcast.Engine.Take;

/// <summary>How likely each thing is that happens between two frames: natural logarithms of probabilities and, for times, of
/// densities over the logarithm of the time.</summary>
/// <remarks>docs/model.md, Take eq. 3 to 7. The numbers are judgements of practice; the random takes of the tests bear them out.</remarks>
internal static class TakeOdds
{
    /// <summary>A frame of a set was never shot, or is deleted.</summary>
    public const double Missing = -4;

    /// <summary>However many are missing at an end: the set was broken off.</summary>
    public const double BrokenOff = -30;

    /// <summary>A frame is shot twice.</summary>
    public const double Twice = -4.6;

    /// <summary>A set begins here.</summary>
    public const double Begins = -1.5;

    /// <summary>A single picture shot before, between or after sets; its time may be any.</summary>
    public const double SingleBetween = -2.2 + AnyTime;

    /// <summary>A single picture shot in the middle of a set.</summary>
    public const double SingleWithin = -4.6 + AnyTime;

    /// <summary>A frame that looks like a marker, and opens no set.</summary>
    public const double LooseMarker = -2.5 + AnyTime;

    /// <summary>A single picture would happen to be taken just as the frames of the set are.</summary>
    public const double SingleAlike = -1.5;

    /// <summary>Focal length, lie or size change in the middle of a set.</summary>
    public const double OtherGeometry = -7;

    /// <summary>A time that may be any, from 0.3 s to a day.</summary>
    public const double AnyTime = -2.5; // 1/ln(1 day/0.3 s)

    private const double PauseAfterMarker = -6;
    private const double TwiceShare = 0.55;
    private const double TwiceSpread = 0.45;
    private const double SetStepSpread = 0.6;
    private const double MarkerStepSpread = 0.55;
    private const double SetStepKept = 0.5;
    private const double Negligible = 20;

    /// <summary>From a frame to the same frame again: without turning.</summary>
    public static double AgainAfter(double gapS, double stepS, double clockStepS) => LogNormal(gapS, TwiceShare * stepS, TwiceSpread, clockStepS);

    /// <summary>From the last frame before a set to its first.</summary>
    public static double BeforeSet(double gapS, double setStepS, double clockStepS) =>
        LogSum(Math.Log(SetStepKept) + LogNormal(gapS, setStepS, SetStepSpread, clockStepS), Math.Log(1 - SetStepKept) + AnyTime);

    /// <summary>From a marker frame to the first frame of its set.</summary>
    public static double AfterMarker(double gapS, double expectedS, double clockStepS) =>
        LogSum(LogNormal(gapS, expectedS, MarkerStepSpread, clockStepS), PauseAfterMarker);

    /// <summary>A set opens with a marker, or does not, where markers are used or not.</summary>
    public static double Marker(bool areUsed, bool isThere) => Math.Log(areUsed == isThere ? 0.85 : 0.15);

    /// <summary>Two frames of a set have the same exposure or not, where a share of neighbours differ.</summary>
    public static double Exposure(bool isSame, double changes)
    {
        var share = Math.Clamp(changes, 0.01, 0.7);
        return Math.Log(isSame ? 1 - share : share);
    }

    /// <summary>How two neighbours look, if they are the same picture twice.</summary>
    /// <param name="relative">Their distance, as a share of what is usual between neighbours; null where it is unknown.</param>
    public static double LooksTwice(double? relative) => relative switch { null => 0, < 0.3 => 2, < 0.6 => -1, _ => -5 };

    /// <summary>How a single picture looks beside the frame before it: one that shows the same is that frame shot twice.</summary>
    /// <param name="relative">As for <see cref="LooksTwice"/>.</param>
    public static double SingleLooks(double? relative) => relative < 0.3 ? -4 : 0;

    /// <summary>How two neighbours look, if the camera was turned between them.</summary>
    /// <param name="relative">As for <see cref="LooksTwice"/>.</param>
    public static double LooksTurned(double? relative) => relative switch { null => 0, < 0.15 => -3, < 0.3 => -1.5, _ => 0 };

    /// <summary>How well the side of a frame joins on to that of its neighbour in a row.</summary>
    /// <param name="mismatch">As a share of what is usual; null where it is unknown.</param>
    public static double Joins(double? mismatch) => mismatch switch { null or < 2 => 0, < 3 => -1.5, _ => -4 };

    /// <summary>The logarithm of the sum of two of which the logarithms are given.</summary>
    public static double LogSum(double a, double b)
    {
        var (larger, smaller) = a > b ? (a, b) : (b, a);
        return larger - smaller > Negligible ? larger : larger + Math.Log(1 + Math.Exp(smaller - larger));
    }

    private static double LogNormal(double gapS, double expectedS, double spread, double clockStepS) =>
        new ExpectedTime(expectedS, spread, clockStepS).At(ExpectedTime.LogOf(gapS, clockStepS));
}
