using MathNet.Numerics.RootFinding;

namespace Glowcast.Engine.Sky;

/// <summary>The sun's disc behind a level edge: how much of it stands above.</summary>
/// <remarks>Heights are those of the centre above the edge, in semidiameters; −1 and lower is hidden, 1 and higher is
/// whole. On terrain they are taken between apparent altitudes, and the flattening of the refracted disc is left out (docs/model.md,
/// L2). An edge that is not level is left out.</remarks>
internal static class Disc
{
    /// <summary>Linear limb darkening of the visible sun, I = 1 − u(1 − μ).</summary>
    private const double LimbDarkening = 0.6;

    /// <summary>Share of the disc's area, 0 to 1: the circular segment above a chord.</summary>
    public static double ShareOfArea(double centreHeightInSemidiameters)
    {
        var c = Math.Clamp(centreHeightInSemidiameters, -1, 1);
        return 1 - ((Math.Acos(c) - (c * Math.Sqrt(1 - (c * c)))) / Math.PI);
    }

    /// <summary>Share of the sun's light, 0 to 1: the segment weighted with limb darkening, u = 0.6.</summary>
    // A chord at height y with half length w = √(1 − y²) carries 2(1 − u)w + (π/2)u w²; integrated from −c to 1.
    public static double ShareOfFlux(double centreHeightInSemidiameters)
    {
        var c = Math.Clamp(centreHeightInSemidiameters, -1, 1);
        var even = (1 - LimbDarkening) * ShareOfArea(c);
        var domed = LimbDarkening / 2 * ((2.0 / 3) + c - (c * c * c / 3));
        return (even + domed) / (1 - (LimbDarkening / 3));
    }

    /// <summary>The centre height at which a share of the area is visible.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The share is not between 0 and 1.</exception>
    public static double HeightForShareOfArea(double share) => share switch
    {
        0 => -1,
        1 => 1,
        > 0 and < 1 => Brent.FindRoot(height => ShareOfArea(height) - share, -1, 1, accuracy: 1e-12),
        _ => throw new ArgumentOutOfRangeException(nameof(share), share, "A share lies between 0 and 1."),
    };
}
