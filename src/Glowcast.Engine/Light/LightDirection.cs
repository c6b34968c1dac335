using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Light;

/// <summary>Where the sun stands against the direction of view.</summary>
public enum LightDirection
{
    /// <summary>From behind the camera: the sun more than 120° from the view.</summary>
    Front,

    /// <summary>Between: the light that models a ridge.</summary>
    Side,

    /// <summary>Towards the camera: the sun less than 60° from the view.</summary>
    Back,
}

internal static class LightDirections
{
    /// <param name="sunFromView">Along the horizon, 0° to 180°.</param>
    public static LightDirection Of(Angle sunFromView) => sunFromView.Degrees switch
    {
        < 60 => LightDirection.Back,
        > 120 => LightDirection.Front,
        _ => LightDirection.Side,
    };
}
