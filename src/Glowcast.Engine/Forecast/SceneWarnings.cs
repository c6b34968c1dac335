using System.Globalization;
using Glowcast.Engine.Light;

namespace Glowcast.Engine.Forecast;

/// <summary>What in a scene makes its windows mean less than they seem to.</summary>
internal static class SceneWarnings
{
    // With less ridge the span is not about it.
    private const double LeastRidge = 0.5;

    /// <param name="scene">Null where nothing is seen.</param>
    public static IReadOnlyList<string> Of(Scene? scene) => scene?.HighestCrest is null ? [] : [.. new[] { LittleRidge(scene), NoValley(scene) }.OfType<string>()];

    private static string? LittleRidge(Scene scene)
    {
        var columns = scene.Patches.Where(patch => patch.Role == PatchRole.Crest).Select(patch => patch.Column).Distinct().Order().ToList();
        if (columns.Count == 0 || columns.Count >= LeastRidge * scene.Columns) return null;
        var (from, to) = (scene.Span.From + (scene.View.ColumnWidth * columns[0]), scene.Span.From + (scene.View.ColumnWidth * (columns[^1] + 1)));
        return string.Create(CultureInfo.InvariantCulture, $"Only {(double)columns.Count / scene.Columns:0 %} of the span shows ridge, between {from.Degrees:0.#}° and {to.Degrees:0.#}°: the windows are about that alone. Narrow the span to it, or take a smaller ridgeFromKm.");
    }

    private static string? NoValley(Scene scene) => scene.Patches.Any(patch => patch.Role == PatchRole.Valley)
        ? null
        : $"No ground nearer than {scene.Thresholds.RidgeFrom.Kilometres:0.#} km is visible in the span: there is no valley to be in shade, and the windows say only when the ridge is lit. Take a larger ridgeFromKm, so that the ground under the ridge counts as valley.";
}
