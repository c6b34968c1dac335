namespace Glowcast.Engine.Light;

/// <summary>Shares of a light chart, minute by minute and column by column, as bytes: row-major, a row a minute.</summary>
public static class ChartShares
{
    private const double MinuteS = 60;

    /// <summary>How much of the ground of some roles counts as lit, 0 to 255 for none to all of its weight; 0 too where a column has no
    /// such ground.</summary>
    public static byte[] Lit(LightChart chart, Func<PatchRole, bool> role)
    {
        ArgumentNullException.ThrowIfNull(chart);
        ArgumentNullException.ThrowIfNull(role);
        var (columns, minutes) = (chart.Scene.Columns, chart.Minutes);
        // What comes into the light at a minute less what leaves it; summed up over time below.
        var changes = new double[(minutes + 1) * columns];
        var weights = new double[columns];
        for (var i = 0; i < chart.Scene.Patches.Count; i++)
        {
            var patch = chart.Scene.Patches[i];
            if (!role(patch.Role)) continue;
            weights[patch.Column] += patch.Weight;
            foreach (var lit in chart.LitStretches(i))
            {
                changes[(FirstMinuteFrom(lit.StartS) * columns) + patch.Column] += patch.Weight;
                changes[(FirstMinuteFrom(lit.EndS) * columns) + patch.Column] -= patch.Weight;
            }
        }
        var shares = new byte[minutes * columns];
        for (var at = 0; at < shares.Length; at++)
        {
            if (at >= columns) changes[at] += changes[at - columns];
            if (weights[at % columns] is > 0 and var weight) shares[at] = (byte)Math.Round(255 * Math.Clamp(changes[at] / weight, 0, 1));
        }
        return shares;

        int FirstMinuteFrom(double seconds) => Math.Min(minutes, (int)Math.Ceiling(seconds / MinuteS));
    }
}
