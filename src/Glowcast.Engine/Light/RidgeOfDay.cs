namespace Glowcast.Engine.Light;

/// <summary>How much of the ridge is lit through a day, of what the sun lights of it at all in each half of the day: while it climbs, and while it sinks.</summary>
/// <remarks>Columns that it does not light in a half have no say in it, and those that it lights in part have as much as that (docs/model.md, L7).</remarks>
/// <param name="Halves">In order of time.</param>
/// <param name="Share">Of what is lit in that half at all, what is lit at a moment.</param>
/// <param name="Columns">How far each column is lit: 1 where enough of its crest band is; null where it shows no ridge.</param>
public sealed record RidgeOfDay(IReadOnlyList<RidgeHalf> Halves, ShareOverTime Share, IReadOnlyList<ShareOverTime?> Columns)
{
    private const double Nothing = 1e-9;

    /// <param name="halves">The stretches in which the sun climbs or sinks.</param>
    internal static RidgeOfDay Of(IReadOnlyList<ShareOverTime?> columns, IReadOnlyList<Stretch> halves, double lengthS)
    {
        var ofHalves = halves.Select(half => new RidgeHalf(half, [.. columns.Select(column => column?.GreatestIn(half) ?? 0)])).ToList();
        var members =
            from half in ofHalves
            let total = half.Greatest.Sum()
            where total > Nothing
            from column in Enumerable.Range(0, columns.Count)
            where half.Greatest[column] > 0
            select (columns[column]!, 1 / total, half.Time);
        return new RidgeOfDay(ofHalves, ShareOverTime.Sum(members, 1, lengthS), columns);
    }

    /// <summary>When enough of the ridge is lit, in halves that light enough of the picture's ridge.</summary>
    internal List<Stretch> LitEnough(LightThresholds thresholds) => Stretch.Common(
        Share.AtLeast(thresholds.ColumnsLit), Stretch.Joined(Halves.Where(half => PartOf(half) >= thresholds.LeastPicture).Select(half => half.Time)));

    /// <summary>The share of the ridge's columns that is lit in a half.</summary>
    public double PartOf(RidgeHalf half)
    {
        ArgumentNullException.ThrowIfNull(half);
        var count = Columns.Count(column => column is not null);
        return count > 0 ? half.Greatest.Sum() / count : 0;
    }
}

/// <summary>One half of a day.</summary>
/// <param name="Time">In which the sun climbs, or sinks.</param>
/// <param name="Greatest">How far each column is lit then at most: 1 where enough of its crest band is, 0 where none.</param>
public sealed record RidgeHalf(Stretch Time, IReadOnlyList<double> Greatest);
