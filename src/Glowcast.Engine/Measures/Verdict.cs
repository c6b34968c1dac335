namespace Glowcast.Engine.Measures;

/// <summary>Whether the set can be finished in the light.</summary>
public enum Verdict
{
    /// <summary>Every exposure has its light, and the chance of it is as good as a set that fits must have (docs/model.md, F5).</summary>
    Fits,

    /// <summary>Every exposure has its light by the best estimate, with a smaller chance.</summary>
    Tight,

    /// <summary>It does not fit: an exposure misses its light from the start chosen, or the chance is too small.</summary>
    TooLong,

    /// <summary>There is no window that day.</summary>
    NoLight,
}
