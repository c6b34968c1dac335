namespace Glowcast.Engine.Light;

/// <summary>Which columns of ridge the sun lights in each half of a day, while it climbs and while it sinks, and which share of those is lit when.</summary>
/// <remarks>Columns that it does not light in a half have no say in it (docs/model.md, L7).</remarks>
/// <param name="Halves">In order of time.</param>
/// <param name="Share">Of the columns lit in that half at all, those lit at a moment.</param>
/// <param name="ColumnsWithRidge">How many columns show ridge.</param>
public sealed record RidgeOfDay(IReadOnlyList<RidgeHalf> Halves, ShareOverTime Share, int ColumnsWithRidge)
{
    /// <param name="lit">When each column is lit; null where it shows no ridge.</param>
    /// <param name="halves">The stretches in which the sun climbs or sinks.</param>
    internal static RidgeOfDay Of(IReadOnlyList<IReadOnlyList<Stretch>?> lit, IReadOnlyList<Stretch> halves, double lengthS)
    {
        var (found, ramps) = (new List<RidgeHalf>(), new List<Ramp>());
        foreach (var half in halves)
        {
            var within = lit.Select(column => column is null ? [] : Stretch.Common(column, [half])).ToList();
            var columns = Enumerable.Range(0, lit.Count).Where(column => within[column].Count > 0).ToList();
            found.Add(new RidgeHalf(half, columns));
            foreach (var stretch in columns.SelectMany(column => within[column]))
            {
                ramps.Add(new Ramp(stretch.StartS, stretch.StartS, 1.0 / columns.Count));
                ramps.Add(new Ramp(stretch.EndS, stretch.EndS, -1.0 / columns.Count));
            }
        }
        return new RidgeOfDay(found, ShareOverTime.Of(ramps, 1, lengthS), lit.Count(column => column is not null));
    }

    /// <summary>When enough of the ridge is lit, in halves that light enough of the picture's ridge.</summary>
    internal List<Stretch> LitEnough(LightThresholds thresholds) => Stretch.Common(
        Share.AtLeast(thresholds.ColumnsLit), Stretch.Joined(Halves.Where(half => PartOf(half) >= thresholds.LeastPicture).Select(half => half.Time)));

    /// <summary>Of the columns that show ridge, the share lit in a half.</summary>
    public double PartOf(RidgeHalf half)
    {
        ArgumentNullException.ThrowIfNull(half);
        return ColumnsWithRidge > 0 ? (double)half.Columns.Count / ColumnsWithRidge : 0;
    }
}

/// <summary>One half of a day.</summary>
/// <param name="Time">In which the sun climbs, or sinks.</param>
/// <param name="Columns">Those it lights then.</param>
public sealed record RidgeHalf(Stretch Time, IReadOnlyList<int> Columns);
