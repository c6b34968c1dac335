using System.Collections.Concurrent;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>Direct light on the span over a day: for every bearing column and minute, how much of the crest, the ridge and
/// the valley is lit.</summary>
public sealed class LightChart
{
    private readonly PatchLight[] lights;
    private readonly IReadOnlyList<Stretch>[][] parts;
    private readonly ShareSums valley;

    // Of each column's valley, and of all ground that it shows.
    private readonly double[] valleyWeights;
    private readonly double[] groundWeights;

    // The share of the disc that each patch sees at each minute, 0 to 255.
    private readonly byte[] shares;

    private readonly ObserverFrame lookout;
    private readonly Moonlight? moon;
    private readonly BeamDoubt beam;
    private readonly Lazy<ShareOverTime> crest;
    private readonly Lazy<ShareOverTime?> deck;
    private readonly Lazy<List<Stretch>> ridgeLit;

    private LightChart(Scene scene, SunTrack track, PatchLight[] lights, byte[] shares, LitRule rule, LitSearch brightness, BeamAir air, Moonlight? moon)
    {
        (Scene, Track, this.lights, this.shares, Rule, Air, this.moon) = (scene, track, lights, shares, rule, air, moon);
        lookout = new ObserverFrame(scene.Lookout);
        beam = new BeamDoubt(track, rule, air);
        parts = PartLight.Of(scene, brightness, lights, track.LengthS);
        var members = Enumerable.Range(0, lights.Length).ToLookup(i => (scene.Patches[i].Column, scene.Patches[i].Role));
        CrestLit = [.. Columns(PatchRole.Crest)];
        ColumnLit = [.. CrestLit.Select(crest => crest is null ? [] : crest.AtLeast(scene.Thresholds.CrestLit))];
        Ridge = RidgeOfDay.Of([.. CrestLit.Select(crest => crest?.Against(scene.Thresholds.CrestLit))], Stretch.Halves(track.LengthS, seconds => SourceAt(seconds).Altitude.Radians), track.LengthS);
        ridgeLit = new(() => InTheDark(Ridge.LitEnough(scene.Thresholds)));
        crest = new(() => Share(Patches(patch => patch.Role == PatchRole.Crest))!);
        deck = new(() => Patches(scene.IsDeck) is var cloud && WeightOf(cloud) >= scene.Thresholds.ValleyPart * WeightOf(Patches(_ => true)) ? Share(cloud) : null);
        ValleyOfColumn = [.. Columns(PatchRole.Valley)];
        (valleyWeights, groundWeights) = (new double[scene.Columns], new double[scene.Columns]);
        foreach (var patch in scene.Patches)
        {
            groundWeights[patch.Column] += patch.Weight;
            if (patch.Role == PatchRole.Valley) valleyWeights[patch.Column] += patch.Weight;
        }
        valley = new ShareSums(ValleyOfColumn, valleyWeights, track.LengthS);
        Valley = valley.Over(_ => true);

        List<int> Patches(Func<GroundPatch, bool> isMeant) => [.. Enumerable.Range(0, lights.Length).Where(i => isMeant(scene.Patches[i]))];

        double WeightOf(List<int> patches) => patches.Sum(i => scene.Patches[i].Weight);

        IEnumerable<ShareOverTime?> Columns(PatchRole role) => Enumerable.Range(0, scene.Columns).Select(column => Share(members[(column, role)]));
    }

    public Scene Scene { get; }

    /// <summary>Whose light it is.</summary>
    public LightSource Source => moon is null ? LightSource.Sun : LightSource.Moon;

    /// <summary>The time of the chart: from civil dawn to civil dusk of the day.</summary>
    public SunTrack Track { get; }

    /// <summary>Minutes, from the start of the track.</summary>
    public int Minutes => MinutesOf(Track);

    /// <summary>For each column, the share of its crest band that is lit; null where no ridge is visible.</summary>
    public IReadOnlyList<ShareOverTime?> CrestLit { get; }

    /// <summary>For each column, when it counts as lit.</summary>
    public IReadOnlyList<List<Stretch>> ColumnLit { get; }

    /// <summary>Which columns the sun lights in each half of the day.</summary>
    public RidgeOfDay Ridge { get; }

    /// <summary>Of the columns that the sun lights at all in that half of the day, the share that is lit.</summary>
    public ShareOverTime RidgeColumns => Ridge.Share;

    /// <summary>When enough of the ridge is lit, in halves that light enough of it; under the moon while the sky is dark.</summary>
    internal List<Stretch> RidgeLit => ridgeLit.Value;

    /// <summary>When the sky is dark enough for the moon; null for the sun.</summary>
    internal IReadOnlyList<Stretch>? Dark => moon?.Dark;

    /// <summary>The share of the crest band that is lit, of all columns together.</summary>
    internal ShareOverTime Crest => crest.Value;

    /// <summary>The share of the sea of cloud in the picture that is lit; null where it takes up too little of the picture, or there is none.</summary>
    internal ShareOverTime? Deck => deck.Value;

    /// <summary>Where the source of the light stands at the lookout, without air.</summary>
    internal (Azimuth Azimuth, Angle Altitude) SourceAt(double seconds)
    {
        var (azimuth, altitude, _) = SkyVector.Sighted(lookout.Toward(Track.EarthFixedAu(seconds)));
        return (azimuth, altitude);
    }

    /// <summary>The source climbs then.</summary>
    internal bool IsClimbing(double seconds)
    {
        const double apartS = 30;
        return SourceAt(seconds + apartS).Altitude > SourceAt(seconds - apartS).Altitude;
    }

    /// <summary>The share of the valley in the picture that is lit; null where it shows none.</summary>
    public ShareOverTime? Valley { get; }

    /// <summary>When little enough of the valley is lit; null where the picture shows none.</summary>
    public List<Stretch>? ValleyShaded => Valley?.AtMost(Scene.Thresholds.MostValley(Scene.ValleyPart));

    /// <summary>When enough of the ridge of some columns is lit.</summary>
    internal List<Stretch> RidgeLitOf(Func<int, bool> column) => InTheDark(RidgeOfDay.Of(
        [.. Ridge.Columns.Select((share, i) => column(i) ? share : null)], [.. Ridge.Halves.Select(half => half.Time)], Track.LengthS).LitEnough(Scene.Thresholds));

    // The sun asks for no dark sky.
    private List<Stretch> InTheDark(List<Stretch> lit) => moon is null ? lit : Stretch.Common(lit, moon.Dark);

    /// <summary>When little enough of the valley of some columns is lit; null where they show none.</summary>
    internal List<Stretch>? ValleyShadedOf(Func<int, bool> column)
    {
        var columns = Enumerable.Range(0, Scene.Columns).Where(column).ToList();
        return valley.Over(column)?.AtMost(Scene.Thresholds.MostValley(columns.Sum(i => valleyWeights[i]) / columns.Sum(i => groundWeights[i])));
    }

    /// <summary>The same for the valley of one column.</summary>
    public IReadOnlyList<ShareOverTime?> ValleyOfColumn { get; }

    /// <summary>Works out the light on every patch, on all processors: from the scene's horizons, and crossings by exact rays.</summary>
    /// <param name="scene">What is seen.</param>
    /// <param name="day">The local day; the chart keeps the part of it with the sun above −6° at the lookout.</param>
    /// <param name="air">That the beam comes through; the usual when left out.</param>
    /// <returns>Null when the sun never comes that high.</returns>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static LightChart? Over(
        Scene scene, Interval day, BeamAir? air = null, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(scene);
        return Daylight.Of(day, scene.Lookout) is { } daylight ? Over(scene, SunTrack.Over(daylight), air ?? BeamAir.Usual, null, progress, cancel) : null;
    }

    /// <summary>The same under the moon, in the nights of a day.</summary>
    /// <returns>Null where it is not up in a dark sky.</returns>
    internal static LightChart? Under(Moonlight moon, Scene scene, BeamAir air, CancellationToken cancel) =>
        Over(scene, moon.TrackFrom(scene.Lookout), air, moon, null, cancel);

    /// <param name="track">The way of the source of the light.</param>
    internal static LightChart Over(Scene scene, SunTrack track, BeamAir air, Moonlight? moon, IProgress<double>? progress, CancellationToken cancel)
    {
        var horizons = moon is null ? scene.Horizons(progress, cancel) : scene.MoonHorizons(cancel);
        var (level, ground) = (Disc.HeightForShareOfArea(scene.Thresholds.DiscShare), scene.Rays);
        var (lights, shares) = (new PatchLight[scene.Patches.Count], new byte[scene.Patches.Count * MinutesOf(track)]);
        var looks = new SunLooks(track, level);
        var rule = scene.RuleFor(air, looks.SunDistanceAu, moon?.OtherSkyLux ?? 0);
        var (brightness, facing) = (new LitSearch(track, rule, scene.Places), scene.Facing);
        Parallel.ForEach(
            Partitioner.Create(ground.Blocks, EnumerablePartitionerOptions.NoBuffering),
            AllProcessors.Until(cancel),
            () => new ChartSearch(track, looks, horizons, ground, level, brightness, facing),
            (block, _, search) =>
            {
                search.Run(block, lights, shares);
                return search;
            },
            _ => { });
        return new LightChart(scene, track, lights, shares, rule, brightness, air, moon);
    }

    /// <summary>That the beam comes through.</summary>
    public BeamAir Air { get; }

    /// <summary>What lifts ground enough to be lit.</summary>
    internal LitRule Rule { get; }

    /// <summary>When a patch of the scene is lit.</summary>
    public IReadOnlyList<Stretch> LitStretches(int patch) => lights[patch].Lit;

    /// <summary>The share of the sun's disc that a patch sees, 0 to 1; between minutes it runs straight.</summary>
    internal double DiscShareAt(int patch, double seconds)
    {
        var minute = Math.Clamp(seconds / ChartSearch.MinuteS, 0, Minutes - 1);
        var before = Math.Min((int)minute, Math.Max(0, Minutes - 2));
        var at = (patch * Minutes) + before;
        var (one, next) = (shares[at], shares[Math.Min(at + 1, shares.Length - 1)]);
        return (one + ((minute - before) * (next - one))) / byte.MaxValue;
    }

    /// <summary>When a patch of the scene sees enough of the sun's disc, whichever way it faces and however weak the beam.</summary>
    public IReadOnlyList<Stretch> SunStretches(int patch) => [.. lights[patch].InSun.Select(sun => sun.Time)];

    /// <summary>The mean share of the disc seen by the ground of one role, one value a column and minute, 0 to 255;
    /// row-major, minutes × columns. 0 too where a column has no such ground.</summary>
    public byte[] MeanDiscShares(Func<PatchRole, bool> role)
    {
        var sums = new double[Minutes * Scene.Columns];
        var weights = new double[Scene.Columns];
        for (var i = 0; i < lights.Length; i++)
        {
            var patch = Scene.Patches[i];
            if (!role(patch.Role)) continue;
            weights[patch.Column] += patch.Weight;
            for (var minute = 0; minute < Minutes; minute++)
                sums[(minute * Scene.Columns) + patch.Column] += patch.Weight * shares[(i * Minutes) + minute];
        }
        return Array.ConvertAll([.. Enumerable.Range(0, sums.Length)], i =>
            weights[i % Scene.Columns] > 0 ? (byte)Math.Round(sums[i] / weights[i % Scene.Columns]) : (byte)0);
    }

    /// <summary>How sure a moment is at which ground of one role comes into the light or leaves it, and what stands towards the
    /// sun then: judged by the patches that cross nearest to it.</summary>
    internal EdgeConfidence ConfidenceAt(double seconds, Func<PatchRole, bool> role)
    {
        const int asked = 15;
        var nearest = (
            from i in Enumerable.Range(0, lights.Length)
            where role(Scene.Patches[i].Role)
            from crossing in lights[i].Crossings
            where crossing.Sun is not null || crossing.ByBeam
            orderby Math.Abs(crossing.Seconds - seconds)
            select (Patch: i, crossing)).Take(asked);
        var ground = new SunOverGround(Track, Scene.Grid, Scene.Model);
        return EdgeConfidence.Of([.. nearest.Select(one => DoubtOf(one.Patch, one.crossing, ground))], new SightLines(Scene.Grid, Scene.Model), Scene.DeckTop);
    }

    private (Place Ground, Azimuth Sun, TimingUncertainty Uncertainty) DoubtOf(int patch, HorizonCrossing crossing, SunOverGround ground)
    {
        var place = Scene.Patches[patch].Ground;
        if (crossing.Sun is not { } sun)
            return (place, Azimuth.FromRadians(beam.AzimuthRad(crossing.Seconds, place)), beam.At(crossing.Seconds, place, Scene.Facing[patch]));
        ground.StandAt(place);
        return (place, Azimuth.FromRadians(sun.AzimuthRad), beam.Beside(TimingUncertainty.At(crossing, ground, place.Height), crossing.Seconds, place, Scene.Facing[patch]));
    }

    private static int MinutesOf(SunTrack track) => (int)(track.LengthS / ChartSearch.MinuteS) + 1;

    /// <summary>For each column that has ground of some roles, the share of it that is lit.</summary>
    internal IEnumerable<(int Column, ShareOverTime Share)> SharesOf(Func<PatchRole, bool> role) =>
        from patch in Enumerable.Range(0, lights.Length)
        where role(Scene.Patches[patch].Role)
        group patch by Scene.Patches[patch].Column into column
        select (column.Key, Share(column)!);

    /// <returns>Null for nobody.</returns>
    private ShareOverTime? Share(IEnumerable<int> patches) => ColumnShare.Of([.. patches], Scene.Patches, patch => parts[patch], Track.LengthS);
}
