using Glowcast.Engine.Sky;

namespace Glowcast.Engine.Light;

/// <summary>A stretch in the sun, and how the disc comes and goes at its ends.</summary>
/// <param name="Time">From one crossing of the horizon to the next.</param>
/// <param name="Level">At the ends, height of the disc's centre above the horizon, in semidiameters.</param>
/// <param name="RisesPerS">How fast the disc rises over the horizon at the start [semidiameters/s]; ∞ where the track begins in the sun.</param>
/// <param name="SinksPerS">And sinks at the end.</param>
internal readonly record struct SunStretch(Stretch Time, double Level, double RisesPerS, double SinksPerS)
{
    /// <summary>The share of the disc above the horizon.</summary>
    public double DiscAt(double seconds)
    {
        var height = Math.Min(Level + (RisesPerS * (seconds - Time.StartS)), Level + (SinksPerS * (Time.EndS - seconds)));
        return height >= 1 || double.IsNaN(height) ? 1 : Disc.ShareOfArea(Math.Max(height, -1));
    }

    /// <summary>All of it stands above the horizon.</summary>
    public bool IsWholeAt(double seconds) => Level + (RisesPerS * (seconds - Time.StartS)) >= 1 && Level + (SinksPerS * (Time.EndS - seconds)) >= 1;
}
