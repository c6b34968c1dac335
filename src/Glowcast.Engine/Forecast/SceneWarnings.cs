using Glowcast.Engine.Light;

namespace Glowcast.Engine.Forecast;

/// <summary>What in a scene makes its windows mean less than they seem to.</summary>
internal static class SceneWarnings
{
    /// <param name="scene">Null where nothing is seen.</param>
    public static IReadOnlyList<string> Of(Scene? scene)
    {
        if (scene?.HighestCrest is null || scene.Patches.Any(patch => patch.Role == PatchRole.Valley)) return [];
        return
        [
            $"No ground nearer than {scene.Thresholds.RidgeFrom.Kilometres:0.#} km is visible in the span: there is no valley to be in shade, and the windows say only when the ridge is lit. Take a larger ridgeFromKm, so that the ground under the ridge counts as valley.",
        ];
    }
}
