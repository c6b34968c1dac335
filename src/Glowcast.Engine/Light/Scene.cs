using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Light;

/// <summary>What the lookout sees over the span, parted into patches of ground: crest, ridge and valley.</summary>
/// <remarks>The ridge is parted as the picture shows it, by apparent altitude; the valley by its area on the ground, so
/// that the meadow before the tripod does not outweigh the valley floor.</remarks>
public sealed class Scene
{
    private const double NominalColumnDeg = 0.25;
    private const int MostColumns = 360;
    private const int RowsInCrestBand = 10;
    private const int CoarseRows = 8;
    private const double ValleyStepM = 100;

    /// <summary>Ground no higher than this over the top of a deck is the deck.</summary>
    internal const double DeckToleranceM = 0.5;

    private const double ValleyStepShare = 0.03;

    private readonly HorizonShelf shelf;
    private readonly Lazy<IReadOnlyList<Place>> places;
    private readonly Lazy<RayGround> rays;

    private Scene(
        VisibleSurface view, ElevationGrid grid, SightModel model, LightThresholds thresholds, Length? deckTop, IReadOnlyList<GroundPatch> patches, HorizonShelf shelf)
    {
        (View, Grid, Model, Thresholds, DeckTop, Patches) = (view, grid, model, thresholds, deckTop, patches);
        this.shelf = shelf;
        places = new Lazy<IReadOnlyList<Place>>(() => [.. patches.Select(patch => patch.Ground)]);
        rays = new Lazy<RayGround>(() => new RayGround(grid, model, places.Value));
    }

    public VisibleSurface View { get; }

    /// <summary>The shading ground: the grid's, or the deck where that is higher.</summary>
    public ElevationGrid Grid { get; }

    /// <summary>How lines of sight run; a deck goes on past the grid's edge.</summary>
    public SightModel Model { get; }

    public LightThresholds Thresholds { get; }

    /// <summary>Top of a sea of cloud; null for none.</summary>
    public Length? DeckTop { get; }

    public IReadOnlyList<GroundPatch> Patches { get; }

    public Place Lookout => View.Eye;

    public BearingSpan Span => View.Span;

    public int Columns => View.Columns.Count;

    /// <summary>The apparent altitude of the highest ridge in the span; null where no ridge is visible.</summary>
    public Angle? HighestCrest => Highest(Patches.Where(patch => patch.Role == PatchRole.Crest));

    /// <param name="grid">Bare ground.</param>
    /// <param name="deckTop">Top of a sea of cloud; null for none.</param>
    /// <param name="shelf">Where the horizons of scenes are kept; null to keep them with this scene alone.</param>
    public static Scene Of(
        ElevationGrid grid, SightModel model, Place eye, BearingSpan span, LightThresholds thresholds, Length? deckTop = null, HorizonShelf? shelf = null)
    {
        ArgumentNullException.ThrowIfNull(grid);
        ArgumentNullException.ThrowIfNull(span);
        ArgumentNullException.ThrowIfNull(thresholds);
        var (ground, sight) = deckTop is { } top ? (grid.Under(top), model.Under(top)) : (grid, model);
        var columns = ColumnsOf(span);
        var view = VisibleSurface.From(ground, sight, eye, span, columns);
        var patches = new List<GroundPatch>();
        for (var column = 0; column < columns; column++)
            patches.AddRange(new ColumnParting(view, column, thresholds, deckTop).Patches());
        return new Scene(view, ground, sight, thresholds, deckTop, patches, shelf ?? new HorizonShelf());
    }

    /// <summary>Into how many columns a span is parted.</summary>
    internal static int ColumnsOf(BearingSpan span) => Math.Clamp((int)Math.Ceiling((span.Width.Degrees / NominalColumnDeg) - 1e-9), 1, MostColumns);

    /// <summary>It is the top of the sea of cloud.</summary>
    internal bool IsDeck(GroundPatch patch) => patch.Role == PatchRole.Valley && DeckTop is { } top && patch.Ground.Height.Metres <= top.Metres + DeckToleranceM;

    /// <summary>The horizons of the patches, in their order; worked out when they are first asked for.</summary>
    /// <param name="progress">Share done, 0 to 1.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    internal HorizonTable Horizons(IProgress<double>? progress = null, CancellationToken cancel = default) =>
        shelf.Horizons(places.Value, Grid, Model, progress, cancel);

    /// <summary>The ground around the patches, in their order.</summary>
    internal RayGround Rays => rays.Value;

    private static Angle? Highest(IEnumerable<GroundPatch> patches)
    {
        Angle? highest = null;
        foreach (var patch in patches)
            if (highest is null || patch.Top > highest) highest = patch.Top;
        return highest;
    }

    /// <summary>Parts what is visible on one bearing.</summary>
    private sealed class ColumnParting(VisibleSurface view, int column, LightThresholds thresholds, Length? deckTop)
    {
        private readonly VisibleColumn seen = view.Columns[column];
        private readonly GroundLine line = new(view.Eye.Point, view.Columns[column].Bearing);

        public IEnumerable<GroundPatch> Patches() => RidgePatches().Concat(ValleyPatches());

        private IEnumerable<GroundPatch> RidgePatches()
        {
            var ridge = seen.Samples.Where(IsRidge).ToList();
            if (ridge.Count == 0) yield break;
            var (topRad, bottomRad) = (ridge[^1].AltitudeRad, ridge[0].AltitudeRad);
            var bandRad = thresholds.CrestBand.Radians;
            var rowRad = bandRad / RowsInCrestBand;
            for (var upperRad = topRad; upperRad > bottomRad;)
            {
                var isCrest = topRad - upperRad < bandRad - (rowRad / 2);
                var lowerRad = Math.Max(bottomRad, upperRad - (isCrest ? rowRad : CoarseRows * rowRad));
                if (seen.At((upperRad + lowerRad) / 2) is { } sample && IsRidge(sample))
                    yield return Patch(isCrest ? PatchRole.Crest : PatchRole.Ridge, sample, lowerRad, upperRad, double.RadiansToDegrees(upperRad - lowerRad));
                upperRad = lowerRad;
            }
        }

        private IEnumerable<GroundPatch> ValleyPatches()
        {
            var nextM = 0.0;
            for (var i = 0; i < seen.Samples.Count; i++)
            {
                var sample = seen.Samples[i];
                if (IsRidge(sample) || sample.DistanceM < nextM) continue;
                var stepM = Math.Max(ValleyStepM, ValleyStepShare * sample.DistanceM);
                nextM = sample.DistanceM + stepM;
                var upperRad = seen.Samples[Math.Min(i + 1, seen.Samples.Count - 1)].AltitudeRad;
                yield return Patch(PatchRole.Valley, sample, sample.AltitudeRad, upperRad, stepM * sample.DistanceM * view.ColumnWidth.Radians);
            }
        }

        private GroundPatch Patch(PatchRole role, VisibleSample sample, double bottomRad, double topRad, double weight) => new(
            column, role, new Place(line.At(sample.DistanceM), Length.FromMetres(sample.HeightM)), Length.FromMetres(sample.DistanceM),
            Angle.FromRadians(bottomRad), Angle.FromRadians(topRad), weight);

        private bool IsRidge(VisibleSample sample) => sample.DistanceM >= thresholds.RidgeFrom.Metres && !IsDeck(sample);

        private bool IsDeck(VisibleSample sample) => deckTop is { } top && sample.HeightM <= top.Metres + DeckToleranceM;
    }
}
