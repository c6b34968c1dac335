using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>Heights from pressures and temperatures: the hypsometric equation (docs/model.md, W5).</summary>
internal static class Hypsometry
{
    /// <summary>Gives each level its height: its own, or one worked out from the levels that have one.</summary>
    /// <param name="levels">With temperature and dew point, by falling pressure.</param>
    /// <exception cref="BadInputException">No level has a height.</exception>
    public static List<ProfileLevel> WithHeights(List<SoundingLevel> levels, string name)
    {
        var bare = levels.ConvertAll(level => new ProfileLevel(level.PressureHPa, 0, level.TemperatureC!.Value, level.DewPointC!.Value, level.WindFromDeg, level.WindKt));
        if (levels.TrueForAll(level => level.HeightM is not null)) return [.. bare.Select((level, i) => level with { HeightM = levels[i].HeightM!.Value })];
        var computedM = HeightsOverFirstM(bare);
        var known = Enumerable.Range(0, levels.Count).Where(i => levels[i].HeightM is not null).ToList();
        if (known.Count == 0) throw new BadInputException(name, "Has no height at any level with temperature and dew point; one is needed to count the others from.");
        return [.. bare.Select((level, i) => level with { HeightM = levels[i].HeightM ?? computedM[i] + OffsetM(i) })];

        // Between two known heights the computed ones are stretched to fit both.
        double OffsetM(int i)
        {
            var (below, above) = (known.FindLastIndex(k => k < i), known.FindIndex(k => k > i));
            if (below < 0) return Difference(known[above]);
            if (above < 0) return Difference(known[below]);
            var share = (computedM[i] - computedM[known[below]]) / (computedM[known[above]] - computedM[known[below]]);
            return Difference(known[below]) + (share * (Difference(known[above]) - Difference(known[below])));
        }

        double Difference(int i) => levels[i].HeightM!.Value - computedM[i];
    }

    /// <summary>From the first level to the last.</summary>
    public static double ThicknessM(IReadOnlyList<ProfileLevel> levels) => HeightsOverFirstM(levels)[^1];

    private static double[] HeightsOverFirstM(IReadOnlyList<ProfileLevel> levels)
    {
        var heightsM = new double[levels.Count];
        for (var i = 1; i < levels.Count; i++)
        {
            var meanK = (VirtualK(levels[i - 1]) + VirtualK(levels[i])) / 2;
            heightsM[i] = heightsM[i - 1] + (MoistAir.DryGasConstant * meanK / MoistAir.Gravity * Math.Log(levels[i - 1].PressureHPa / levels[i].PressureHPa));
        }
        return heightsM;
    }

    private static double VirtualK(ProfileLevel level) => MoistAir.VirtualTemperatureK(level.PressureHPa, level.TemperatureC, Math.Min(level.DewPointC, level.TemperatureC));
}
