using Glowcast.Engine.Light;

namespace Glowcast.Field.Pictures;

/// <summary>What is lit of the bearings at one place.</summary>
internal enum CellLight
{
    NoRidge,
    Shade,
    Partly,
    Lit,

    /// <summary>The ridge is lit, and more of the valley below it than counts as shade.</summary>
    ValleyToo,
}

/// <summary>The columns of a light chart that share one place of a picture.</summary>
internal sealed class ChartCell
{
    // Less of a crest than this is no light that anybody sees.
    private const double LeastLight = 0.05;
    private const double MostColumns = 0.5;

    private readonly LightChart chart;
    private readonly IReadOnlyList<int> ridge;
    private readonly IReadOnlyList<ShareOverTime> valley;

    private ChartCell(LightChart chart, IEnumerable<int> columns)
    {
        this.chart = chart;
        ridge = [.. columns.Where(column => chart.CrestLit[column] is not null)];
        valley = [.. columns.Select(column => chart.ValleyOfColumn[column]).OfType<ShareOverTime>()];
    }

    /// <param name="character">Its place among <paramref name="characters"/>, from 0.</param>
    public static ChartCell Of(LightChart chart, int character, int characters)
    {
        var first = (int)((long)character * chart.Scene.Columns / characters);
        var next = (int)((character + 1L) * chart.Scene.Columns / characters);
        return new ChartCell(chart, Enumerable.Range(first, Math.Max(1, next - first)));
    }

    /// <param name="seconds">After the start of the chart.</param>
    public CellLight At(double seconds)
    {
        if (ridge.Count == 0) return CellLight.NoRidge;
        var lit = ridge.Count(column => chart.ColumnLit[column].Exists(stretch => stretch.StartS <= seconds && seconds < stretch.EndS));
        if (lit < MostColumns * ridge.Count)
            return lit > 0 || ridge.Average(column => chart.CrestLit[column]!.At(seconds)) > LeastLight ? CellLight.Partly : CellLight.Shade;
        return valley.Count > 0 && valley.Average(share => share.At(seconds)) > chart.Scene.Thresholds.ValleyLit ? CellLight.ValleyToo : CellLight.Lit;
    }
}
