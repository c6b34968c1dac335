using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Light;

/// <summary>What the lookout sees over the span, parted into patches of ground: crest, ridge and valley, each by its solid angle in the picture.</summary>
public sealed class Scene
{
    private const double NominalColumnDeg = 0.25;
    private const int MostColumns = 360;

    private readonly HorizonShelf shelf;
    private readonly Lazy<IReadOnlyList<Place>> places;
    private readonly Lazy<RayGround> rays;
    private readonly Lazy<PatchGround[]> facing;
    private readonly Lazy<GroundNormal[][]> partNormals;

    private Scene(
        VisibleSurface view, ElevationGrid grid, SightModel model, LightThresholds thresholds, Length? deckTop, PictureBounds picture, IReadOnlyList<GroundPatch> patches,
        HorizonShelf shelf)
    {
        (View, Grid, Model, Thresholds, DeckTop, Picture, Patches) = (view, grid, model, thresholds, deckTop, picture, patches);
        this.shelf = shelf;
        places = new Lazy<IReadOnlyList<Place>>(() => [.. patches.Select(patch => patch.Ground)]);
        rays = new Lazy<RayGround>(() => new RayGround(grid, model, places.Value));
        facing = new Lazy<PatchGround[]>(() => PatchGround.Of(places.Value, grid, model));
        partNormals = new Lazy<GroundNormal[][]>(() => [.. patches.Select(patch => patch.Parts.Select(part => PatchGround.NormalAt(grid, part)).ToArray())]);
    }

    public VisibleSurface View { get; }

    /// <summary>The shading ground: the grid's, or the deck where that is higher.</summary>
    public ElevationGrid Grid { get; }

    /// <summary>How lines of sight run; a deck goes on past the grid's edge.</summary>
    public SightModel Model { get; }

    public LightThresholds Thresholds { get; }

    /// <summary>Top of a sea of cloud; null for none.</summary>
    public Length? DeckTop { get; }

    /// <summary>What of the span the picture shows; ground outside it is in no patch.</summary>
    public PictureBounds Picture { get; }

    /// <summary>Column by column, each from the top down.</summary>
    public IReadOnlyList<GroundPatch> Patches { get; }

    public Place Lookout => View.Eye;

    public BearingSpan Span => View.Span;

    public int Columns => View.Columns.Count;

    /// <summary>The apparent altitude of the highest ridge in the span, in the picture or above it; null where no ridge is visible.</summary>
    public Angle? HighestCrest { get; private init; }

    /// <summary>The picture holds some of the ridge.</summary>
    public bool ShowsRidge => Patches.Any(patch => patch.Role == PatchRole.Crest);

    /// <summary>Of all ground in the picture, the share that is valley, 0 to 1; 0 without any ground.</summary>
    public double ValleyPart { get; private init; }

    /// <param name="grid">Bare ground.</param>
    /// <param name="deckTop">Top of a sea of cloud; null for none.</param>
    /// <param name="shelf">Where the horizons of scenes are kept; null to keep them with this scene alone.</param>
    /// <param name="framing">From the highest crest to what the picture shows; all that is seen when left out.</param>
    public static Scene Of(
        ElevationGrid grid, SightModel model, Place eye, BearingSpan span, LightThresholds thresholds, Length? deckTop = null, HorizonShelf? shelf = null,
        Func<Angle, PictureBounds>? framing = null) =>
        Of(grid, model, eye, span, thresholds, deckTop, shelf, framing, SceneFineness.Usual);

    internal static Scene Of(
        ElevationGrid grid, SightModel model, Place eye, BearingSpan span, LightThresholds thresholds, Length? deckTop, HorizonShelf? shelf,
        Func<Angle, PictureBounds>? framing, SceneFineness fineness)
    {
        ArgumentNullException.ThrowIfNull(grid);
        ArgumentNullException.ThrowIfNull(span);
        ArgumentNullException.ThrowIfNull(thresholds);
        var (ground, sight) = deckTop is { } top ? (grid.Under(top), model.Under(top)) : (grid, model);
        var view = VisibleSurface.From(ground, sight, eye, span, ColumnsOf(span), fineness.SweepStepShare);
        var profile = new VisibleProfile(ground, sight, eye);
        var pieces = view.Columns.Select(profile.PiecesOf).ToList();
        var whole = new ColumnParting(thresholds, deckTop, PictureBounds.Everything, fineness);
        Angle? crest = pieces.Max(whole.HighestRidgeRad) is { } highestRad ? Angle.FromRadians(highestRad) : null;
        var picture = crest is { } highest && framing is not null ? framing(highest) : PictureBounds.Everything;
        var parting = new ColumnParting(thresholds, deckTop, picture, fineness);
        List<GroundPatch> patches =
            [.. pieces.SelectMany((seen, column) => parting.Patches(seen, column, view.ColumnWidth, new GroundLine(eye.Point, view.Columns[column].Bearing)))];
        var all = patches.Sum(patch => patch.Weight);
        return new Scene(view, ground, sight, thresholds, deckTop, picture, patches, shelf ?? new HorizonShelf())
        {
            HighestCrest = crest,
            ValleyPart = all > 0 ? patches.Where(patch => patch.Role == PatchRole.Valley).Sum(patch => patch.Weight) / all : 0,
        };
    }

    /// <summary>Into how many columns a span is parted.</summary>
    internal static int ColumnsOf(BearingSpan span) => Math.Clamp((int)Math.Ceiling((span.Width.Degrees / NominalColumnDeg) - 1e-9), 1, MostColumns);

    /// <summary>It is the top of the sea of cloud.</summary>
    internal bool IsDeck(GroundPatch patch) => patch.Role == PatchRole.Valley && DeckTop is { } top && patch.Ground.Height.Metres <= top.Metres + DeckSurface.ToleranceM;

    /// <summary>The horizons of the patches, in their order; worked out when they are first asked for.</summary>
    /// <param name="progress">Share done, 0 to 1.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    internal HorizonTable Horizons(IProgress<double>? progress = null, CancellationToken cancel = default) =>
        shelf.Horizons(places.Value, Grid, Model, progress, cancel);

    /// <summary>The same for wherever the moon may stand.</summary>
    internal HorizonTable MoonHorizons(CancellationToken cancel) => shelf.MoonHorizons(places.Value, Grid, Model, cancel);

    /// <summary>Of the patches, in their order.</summary>
    internal IReadOnlyList<Place> Places => places.Value;

    /// <summary>The ground around the patches, in their order.</summary>
    internal RayGround Rays => rays.Value;

    /// <summary>Which way the patches face and how much of the sky they see, in their order.</summary>
    internal IReadOnlyList<PatchGround> Facing => facing.Value;

    /// <summary>Which way the parts of the patches face.</summary>
    internal IReadOnlyList<GroundNormal[]> PartNormals => partNormals.Value;

    /// <summary>What lights ground of the scene's heights.</summary>
    /// <param name="otherSkyLux">Of the sky besides what the source of the beam gives it, in the scale of the sun's light.</param>
    internal LitRule RuleFor(BeamAir air, double sunDistanceAu, double otherSkyLux = 0)
    {
        var heights = places.Value.Select(place => place.Height).DefaultIfEmpty(Lookout.Height).ToList();
        return new LitRule(Thresholds.LitStops, air, Lookout.Height, heights.Min(), heights.Max(), sunDistanceAu, otherSkyLux);
    }
}
