using NodaTime;

namespace Glowcast.Engine.Capture;

/// <summary>Several exposures of each frame at shutter times evenly spread about the metered one, the shortest first.</summary>
/// <remarks>docs/model.md, Capture eq. 26.</remarks>
public sealed record Bracket
{
    public static readonly Bracket None = new(1, 0);

    /// <param name="shots">Exposures of each frame; an odd number, so that the metered one is among them.</param>
    /// <param name="stepStops">From one to the next.</param>
    /// <exception cref="ArgumentOutOfRangeException">An even number, less than one, or several without a step between them.</exception>
    public Bracket(int shots, double stepStops)
    {
        if (shots < 1 || shots % 2 == 0)
            throw new ArgumentOutOfRangeException(nameof(shots), shots, "A bracket is an odd number of exposures, 1 for none.");
        if (shots > 1 ? !(stepStops is > 0 and <= 5) : stepStops != 0)
            throw new ArgumentOutOfRangeException(nameof(stepStops), stepStops, "The step of a bracket is more than 0 and at most 5 stops; 0 for a single exposure.");
        (Shots, StepStops) = (shots, stepStops);
    }

    public int Shots { get; }

    public double StepStops { get; }

    public IReadOnlyList<Duration> ShutterTimes(Duration metered) =>
        [.. Enumerable.Range(0, Shots).Select(shot => metered * Math.Pow(2, (shot - (Shots / 2)) * StepStops))];
}
