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

    // The share of the disc that each patch sees at each minute, 0 to 255.
    private readonly byte[] shares;

    private LightChart(Scene scene, SunTrack track, PatchLight[] lights, byte[] shares)
    {
        (Scene, Track, this.lights, this.shares) = (scene, track, lights, shares);
        var members = Enumerable.Range(0, lights.Length).ToLookup(i => (scene.Patches[i].Column, scene.Patches[i].Role));
        CrestLit = [.. Columns(PatchRole.Crest)];
        ColumnLit = [.. CrestLit.Select(crest => crest is null ? [] : crest.AtLeast(scene.Thresholds.CrestLit))];
        RidgeColumns = ShareOverTime.Of(
            from column in Enumerable.Range(0, scene.Columns)
            where CrestLit[column] is not null
            select ((IReadOnlyList<Stretch>)ColumnLit[column], 1.0), track.LengthS);
        Valley = Share(Enumerable.Range(0, lights.Length).Where(i => scene.Patches[i].Role == PatchRole.Valley));
        ValleyOfColumn = [.. Columns(PatchRole.Valley)];

        IEnumerable<ShareOverTime?> Columns(PatchRole role) => Enumerable.Range(0, scene.Columns).Select(column => Share(members[(column, role)]));
    }

    public Scene Scene { get; }

    /// <summary>The time of the chart: from civil dawn to civil dusk of the day.</summary>
    public SunTrack Track { get; }

    /// <summary>Minutes, from the start of the track.</summary>
    public int Minutes => MinutesOf(Track);

    /// <summary>For each column, the share of its crest band that is lit; null where no ridge is visible.</summary>
    public IReadOnlyList<ShareOverTime?> CrestLit { get; }

    /// <summary>For each column, when it counts as lit.</summary>
    public IReadOnlyList<List<Stretch>> ColumnLit { get; }

    /// <summary>The share of the columns with ridge that are lit.</summary>
    public ShareOverTime RidgeColumns { get; }

    /// <summary>The share of the visible valley that is lit; null where none is visible.</summary>
    public ShareOverTime? Valley { get; }

    /// <summary>The same for the valley of one column.</summary>
    public IReadOnlyList<ShareOverTime?> ValleyOfColumn { get; }

    /// <summary>Works out the light on every patch, on all processors: from the scene's horizons, and crossings by exact rays.</summary>
    /// <param name="scene">What is seen.</param>
    /// <param name="day">The local day; the chart keeps the part of it with the sun above −6° at the lookout.</param>
    /// <returns>Null when the sun never comes that high.</returns>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static LightChart? Over(Scene scene, Interval day, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(scene);
        if (Daylight.Of(day, scene.Lookout) is not { } daylight) return null;
        var horizons = scene.Horizons(progress, cancel);
        var track = SunTrack.Over(daylight);
        var (level, ground) = (Disc.HeightForShareOfArea(scene.Thresholds.DiscShare), scene.Rays);
        var (lights, shares) = (new PatchLight[scene.Patches.Count], new byte[scene.Patches.Count * MinutesOf(track)]);
        var looks = new SunLooks(track, level);
        Parallel.ForEach(
            Partitioner.Create(ground.Blocks, EnumerablePartitionerOptions.NoBuffering),
            AllProcessors.Until(cancel),
            () => new ChartSearch(track, looks, horizons, ground, level),
            (block, _, search) =>
            {
                search.Run(block, lights, shares);
                return search;
            },
            _ => { });
        return new LightChart(scene, track, lights, shares);
    }

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
            where crossing.Sun is not null
            orderby Math.Abs(crossing.Seconds - seconds)
            select (Scene.Patches[i].Ground, crossing)).Take(asked);
        return EdgeConfidence.Of([.. nearest], new SunOverGround(Track, Scene.Grid, Scene.Model), new SightLines(Scene.Grid, Scene.Model), Scene.DeckTop);
    }

    private static int MinutesOf(SunTrack track) => (int)(track.LengthS / ChartSearch.MinuteS) + 1;

    /// <returns>Null for nobody.</returns>
    private ShareOverTime? Share(IEnumerable<int> patches)
    {
        var members = patches.Select(i => (lights[i].Lit, Scene.Patches[i].Weight)).ToList();
        return members.Count == 0 ? null : ShareOverTime.Of(members, Track.LengthS);
    }
}
