namespace Glowcast.Engine.Light;

/// <summary>How much of its light ground gives back, evenly to all sides: 0 to 1.</summary>
/// <param name="LitRidge">Of the ridge in the sun.</param>
/// <param name="ShadedGround">Of the ground in shade.</param>
/// <remarks>Round figures of common practice: old snow 0.8, pale rock 0.3, rock 0.15, grass 0.1, forest 0.05.</remarks>
public readonly record struct Reflectances(double LitRidge, double ShadedGround)
{
    /// <summary>Snow in the sun over rock in the shade.</summary>
    public static Reflectances Usual { get; } = new(0.8, 0.15);
}
