using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>By how much the heights of a grid may be off, one post against another.</summary>
/// <param name="Size">One standard deviation.</param>
public sealed record HeightError(Length Size, HeightErrorSource Source)
{
    // A normal error is within this many standard deviations nine times in ten.
    private const double NineInTen = 1.6449;

    /// <summary>Where nothing is said: 5 m, as of shuttle-radar grids.</summary>
    /// <remarks>Nine tenths of their heights in North America are within 9.0 m: E. Rodriguez, C. S. Morris, J. E. Belz, A Global
    /// Assessment of the SRTM Performance, Photogrammetric Engineering and Remote Sensing 72 (2006), 249 (from memory).</remarks>
    public static HeightError Usual { get; } = new(Length.FromMetres(5), HeightErrorSource.Assumed);

    /// <summary>By a producer's two figures, each for nine heights in ten (MIL-PRF-89020B): of a height by itself, and of the
    /// difference between two posts, which is what light goes by, and so counts where it is there.</summary>
    /// <returns>Null where neither is.</returns>
    internal static HeightError? Stated(double? absoluteM, double? differenceM)
    {
        var oneInM = differenceM is > 0 and var between ? between / Math.Sqrt(2) : absoluteM is > 0 and var alone ? alone : (double?)null;
        return oneInM is { } metres ? new HeightError(Length.FromMetres(metres / NineInTen), HeightErrorSource.Grid) : null;
    }

    /// <summary>Of ground that is put together from several files: the greatest.</summary>
    internal static HeightError Of(IEnumerable<HeightError> parts) => parts.MaxBy(part => part.Size.Metres) ?? Usual;
}

/// <summary>Who says how far heights may be off.</summary>
public enum HeightErrorSource
{
    /// <summary>Nobody.</summary>
    Assumed,

    /// <summary>The grid's own file.</summary>
    Grid,

    /// <summary>The plan.</summary>
    Plan,
}
