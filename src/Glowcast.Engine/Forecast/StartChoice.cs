using Glowcast.Engine.Light;

namespace Glowcast.Engine.Forecast;

/// <summary>Which of the possible starts to recommend.</summary>
/// <remarks>docs/model.md, F8: the one with the most safety on both sides among those whose brightness stays within
/// tolerance; where none does, the one with the least drift. Kept clear of both ends by what the forecast is unsure of.</remarks>
internal static class StartChoice
{
    private const int Looks = 60;

    /// <param name="starts">All possible ones.</param>
    /// <param name="clearS">Wanted between the start and either end; half the stretch at most.</param>
    /// <param name="driftStops">From the first frame to the last, for a start.</param>
    /// <returns>Seconds, as in <paramref name="starts"/>.</returns>
    public static double Within(Stretch starts, double clearS, Func<double, double> driftStops, double toleranceStops)
    {
        var clear = Math.Min(clearS, starts.LengthS / 2);
        var (middle, reach) = ((starts.StartS + starts.EndS) / 2, (starts.LengthS / 2) - clear);
        // From the middle outwards, to either side in turn.
        var looks = Enumerable.Range(0, Looks + 1).Select(look => middle + (reach * ((look + 1) / 2) / (Looks / 2) * (look % 2 == 0 ? 1 : -1)));
        var (best, least) = (middle, double.PositiveInfinity);
        foreach (var start in looks)
        {
            var drift = Math.Abs(driftStops(start));
            if (drift <= toleranceStops) return start;
            if (drift < least) (best, least) = (start, drift);
        }
        return best;
    }
}
