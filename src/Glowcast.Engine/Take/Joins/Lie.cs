namespace Glowcast.Engine.Take;

/// <summary>How a stored picture lies: EXIF 2.32, tag 0x0112, 1 to 8; 1 is upright.</summary>
internal static class Lie
{
    /// <summary>Where a place of the stored picture is to be seen.</summary>
    /// <param name="u">From the left of the stored picture, 0 to <paramref name="mostU"/>.</param>
    /// <param name="v">From its top, 0 to <paramref name="mostV"/>.</param>
    public static (double Across, double Down) Upright(int lie, double u, double v, double mostU = 1, double mostV = 1) => lie switch
    {
        2 => (mostU - u, v),
        3 => (mostU - u, mostV - v),
        4 => (u, mostV - v),
        5 => (v, u),
        6 => (mostV - v, u),
        7 => (mostV - v, mostU - u),
        8 => (v, mostU - u),
        _ => (u, v),
    };
}
