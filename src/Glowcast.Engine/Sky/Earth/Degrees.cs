namespace Glowcast.Engine.Sky;

/// <summary>Plain degrees, as the published series use them.</summary>
internal static class Degrees
{
    /// <summary>Into [0, 360).</summary>
    public static double Wrap(double degrees)
    {
        var wrapped = degrees - (360 * Math.Floor(degrees / 360));
        return wrapped < 360 ? wrapped : 0;
    }

    /// <summary>Into [−180, 180).</summary>
    public static double WrapSigned(double degrees) => Wrap(degrees + 180) - 180;

    public static double Sin(double degrees) => Math.Sin(double.DegreesToRadians(degrees));

    public static double Cos(double degrees) => Math.Cos(double.DegreesToRadians(degrees));
}
