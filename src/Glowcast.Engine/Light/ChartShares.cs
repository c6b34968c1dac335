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
        var shares = new byte[minutes * columns];
        foreach (var (column, share) in chart.SharesOf(role))
            for (var minute = 0; minute < minutes; minute++) shares[(minute * columns) + column] = (byte)Math.Round(255 * share.At(minute * MinuteS));
        return shares;
    }
}
