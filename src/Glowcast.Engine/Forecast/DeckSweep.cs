using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Forecast;

/// <summary>What a rising sea of cloud leaves of the ridge in the span.</summary>
/// <remarks>
/// A crest at height h and distance d, seen from an eye at height e, shows over a deck of top D while the sight line stays
/// above it: e + m x + c x² > D for all x from 0 to d, with m = (h − e)/d − c d and c = (1−k)/2R (docs/model.md, W12). So each
/// column has one height at which its crest is swallowed, and no deck has to be tried out.
/// </remarks>
/// <param name="Eye">Height of the lookout's eye: at this top and above it is drowned.</param>
/// <param name="SwallowedAt">For each column the top at which its crest goes; null where no ridge is seen.</param>
/// <param name="Lowest">The lowest ground in view; null where nothing is.</param>
public sealed record DeckSweep(Length Eye, IReadOnlyList<Length?> SwallowedAt, Length? Lowest)
{
    private const int MostRows = 14;

    private static readonly double[] StepsM = [25, 50, 100, 200, 500, 1000];

    /// <param name="bare">What is seen without any cloud.</param>
    public static DeckSweep Of(VisibleSurface bare, SightModel model, Length ridgeFrom)
    {
        ArgumentNullException.ThrowIfNull(bare);
        ArgumentNullException.ThrowIfNull(model);
        var heights = bare.Columns.SelectMany(column => column.Samples).Select(sample => sample.HeightM).ToList();
        return new DeckSweep(
            bare.Eye.Height,
            [.. bare.Columns.Select(column => column.Skyline is { } crest && crest.DistanceM >= ridgeFrom.Metres ? (Length?)SwallowHeight(bare.Eye.Height, crest, model) : null)],
            heights.Count > 0 ? Length.FromMetres(heights.Min()) : null);
    }

    /// <summary>The lowest of the swallowing heights: from there on the ridge begins to go. Null without a ridge.</summary>
    public Length? FirstSwallowed => Known.Count > 0 ? Known[0] : null;

    /// <summary>Where half of the columns are swallowed.</summary>
    public Length? HalfSwallowed => Known.Count > 0 ? Known[Known.Count / 2] : null;

    /// <summary>Where the last of them goes.</summary>
    public Length? AllSwallowed => Known.Count > 0 ? Known[^1] : null;

    /// <summary>What a deck of one height leaves.</summary>
    public DeckRow At(Length top) => new(top, Known.Count == 0 ? 0 : (double)Known.Count(height => height > top) / Known.Count, IslandsOver(top), Eye <= top);

    /// <summary>A table of deck tops in round steps, from the lowest ground in view to where the lookout is drowned.</summary>
    public IReadOnlyList<DeckRow> Table()
    {
        if (Lowest is not { } lowest) return [];
        var stepM = StepsM.FirstOrDefault(step => (Eye - lowest).Metres / step <= MostRows - 2, StepsM[^1]);
        var first = Math.Ceiling(lowest.Metres / stepM);
        var last = Math.Max(first, Math.Ceiling(Eye.Metres / stepM));
        return [.. Enumerable.Range(0, Math.Min(MostRows, (int)(last - first) + 1)).Select(i => At(Length.FromMetres((first + i) * stepM)))];
    }

    private List<Length> Known { get; } = [.. SwallowedAt.OfType<Length>().Order()];

    /// <summary>Runs of neighbouring columns whose crest shows.</summary>
    private int IslandsOver(Length top)
    {
        var (islands, wasShown) = (0, false);
        foreach (var swallowed in SwallowedAt)
        {
            var isShown = swallowed > top;
            if (isShown && !wasShown) islands++;
            wasShown = isShown;
        }
        return islands;
    }

    private static Length SwallowHeight(Length eye, VisibleSample crest, SightModel model)
    {
        var curve = model.DropPerMetre;
        var (eyeM, distanceM) = (eye.Metres, crest.DistanceM);
        var slope = ((crest.HeightM - eyeM) / distanceM) - (curve * distanceM);
        var lowestAtM = -slope / (2 * curve);
        var lowestM = lowestAtM > 0 && lowestAtM < distanceM ? eyeM - (slope * slope / (4 * curve)) : Math.Min(eyeM, crest.HeightM);
        return Length.FromMetres(lowestM);
    }
}

/// <summary>What a deck of one height leaves of the span.</summary>
/// <param name="CrestShare">Share of the columns with ridge whose crest still shows, 0 to 1.</param>
/// <param name="Islands">Separate pieces of ridge that stand out.</param>
/// <param name="IsLookoutDrowned">The lookout's eye is at the top or under it: nothing is seen.</param>
public sealed record DeckRow(Length Top, double CrestShare, int Islands, bool IsLookoutDrowned);
