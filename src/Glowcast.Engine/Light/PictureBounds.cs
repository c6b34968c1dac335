using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Light;

/// <summary>Between which altitudes a picture shows the span.</summary>
/// <param name="Bottom">Apparent altitude of its lower edge.</param>
/// <param name="Top">Of its upper edge.</param>
public sealed record PictureBounds(Angle Bottom, Angle Top)
{
    /// <summary>All that there is to be seen.</summary>
    public static PictureBounds Everything { get; } = new(Angle.FromDegrees(-90), Angle.FromDegrees(90));
}
