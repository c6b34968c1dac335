using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>Finds the layers of a profile that are moist enough for cloud, up to 6000 m (docs/model.md, W7).</summary>
public static class MoistLayerSearch
{
    /// <summary>Cloud where temperature and dew point are no farther apart.</summary>
    public const double CloudDepressionC = 2.0;

    /// <summary>Saturated, as far as a balloon's sensor tells.</summary>
    public const double SaturatedDepressionC = 1.0;

    public const double HighestM = 6000;
    private const double LeastThicknessM = 10;
    private const double Rounding = 1e-6;

    /// <summary>From the lowest up; none is an ordinary answer.</summary>
    public static IReadOnlyList<MoistLayer> Of(Profile profile)
    {
        ArgumentNullException.ThrowIfNull(profile);
        var levels = profile.Levels.TakeWhile(level => level.HeightM <= HighestM).ToList();
        var layers = new List<MoistLayer>();
        for (var i = 0; i < levels.Count; i++)
        {
            if (!IsMoist(levels[i].DepressionC)) continue;
            var first = i;
            while (i + 1 < levels.Count && IsMoist(levels[i + 1].DepressionC)) i++;
            layers.Add(LayerOf(levels, first, i));
        }
        return layers.FindAll(layer => layer.Thickness.Metres >= LeastThicknessM);
    }

    internal static bool IsMoist(double depressionC) => depressionC <= CloudDepressionC + Rounding;

    private static MoistLayer LayerOf(List<ProfileLevel> levels, int first, int last)
    {
        var isOpen = last == levels.Count - 1;
        var baseM = first == 0 ? levels[0].HeightM : CrossingM(levels[first - 1], levels[first], CloudDepressionC);
        var topM = isOpen ? levels[last].HeightM : CrossingM(levels[last], levels[last + 1], CloudDepressionC);
        return new MoistLayer(
            Length.FromMetres(baseM), Length.FromMetres(topM), levels.GetRange(first, last - first + 1).Min(level => level.DepressionC),
            first == 0, isOpen, SaturatedFromM(levels, first, last) is { } height ? Length.FromMetres(height) : null);
    }

    private static double? SaturatedFromM(List<ProfileLevel> levels, int first, int last)
    {
        var saturated = levels.FindIndex(first, last - first + 1, level => level.DepressionC <= SaturatedDepressionC + Rounding);
        if (saturated < 0) return null;
        return saturated == 0 ? levels[0].HeightM : CrossingM(levels[saturated - 1], levels[saturated], SaturatedDepressionC);
    }

    /// <summary>Where the depression passes a value between two levels, by a straight line; at a level that just has it, there.</summary>
    private static double CrossingM(ProfileLevel below, ProfileLevel above, double depressionC)
    {
        var share = (depressionC - below.DepressionC) / (above.DepressionC - below.DepressionC);
        return below.HeightM + (Math.Clamp(share, 0, 1) * (above.HeightM - below.HeightM));
    }
}
