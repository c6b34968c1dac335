using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>The windows of every day of a range, from one table of horizons (docs/model.md, L10).</summary>
/// <remarks>Part of the crest and of the valley stand for the whole, and moments are good to a minute or two: enough to choose
/// a day, which then gets a forecast of its own.</remarks>
public sealed class Season
{
    public const int MostDays = 5 * 366;

    private const double LookS = 300;
    private const int CrestRowsKept = 2;
    private const int ValleyPatchesKept = 1200;

    private readonly Scene scene;
    private readonly DateTimeZone? zone;
    private readonly List<Member> members;
    private readonly HorizonTable table;
    private readonly double level;

    private Season(Scene scene, DateTimeZone? zone, List<Member> members, HorizonTable table)
    {
        (this.scene, this.zone, this.members, this.table) = (scene, zone, members, table);
        level = Disc.HeightForShareOfArea(scene.Thresholds.DiscShare);
    }

    /// <summary>Works out the horizons; what follows for each day costs little.</summary>
    /// <param name="zone">Null to reckon days by the sun.</param>
    public static Season Over(Scene scene, DateTimeZone? zone, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(scene);
        return new Season(scene, zone, Chosen(scene), scene.Horizons(progress, cancel));
    }

    /// <summary>Every day of a range, in order of time.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The range is empty, or longer than five years.</exception>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public IReadOnlyList<SeasonDay> Days(LocalDate from, LocalDate to, SeasonScore score, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(score);
        var count = Period.DaysBetween(from, to) + 1;
        if (count is < 1 or > MostDays) throw new ArgumentOutOfRangeException(nameof(to), to, $"A season has 1 to {MostDays} days; from {from} to {to} there are {count}.");
        var days = new SeasonDay[count];
        var done = 0;
        Parallel.For(0, count, new ParallelOptions { CancellationToken = cancel }, i =>
        {
            var date = from.PlusDays(i);
            days[i] = score.Judge(date, WindowsOf(date));
            progress?.Report((double)Interlocked.Increment(ref done) / count);
        });
        return days;
    }

    private IReadOnlyList<SeasonWindow> WindowsOf(LocalDate date)
    {
        if (Daylight.Of(LocalDay.Of(date, scene.Lookout.Point, zone), scene.Lookout) is not { } daylight) return [];
        var track = SunTrack.Over(daylight);
        var lit = new IReadOnlyList<Stretch>[members.Count];
        for (var i = 0; i < lit.Length; i++) lit[i] = LitOf(i, track);
        var ridge = RidgeOf(lit, track.LengthS);
        var valley = Share(lit, PatchRole.Valley, track.LengthS);
        var both = ridge.AtLeast(scene.Thresholds.ColumnsLit);
        if (valley is not null) both = Stretch.Common(both, valley.AtMost(scene.Thresholds.ValleyLit));
        return [.. both.Where(stretch => stretch.LengthS >= 60).Select(stretch => Describe(stretch, track, ridge, valley))];
    }

    private SeasonWindow Describe(Stretch stretch, SunTrack track, ShareOverTime ridge, ShareOverTime? valley)
    {
        var middleS = (stretch.StartS + stretch.EndS) / 2;
        var sun = Sun.At(track.At(middleS)).SeenFrom(scene.Lookout);
        return new SeasonWindow(
            new Interval(track.At(stretch.StartS), track.At(stretch.EndS)), ridge.At(middleS), valley?.At(middleS),
            Refraction.ToApparent(sun.AirlessAltitude, scene.Lookout.Height).Degrees, scene.Span.Centre.TurnTo(sun.Azimuth).Abs().Degrees);
    }

    private ShareOverTime RidgeOf(IReadOnlyList<Stretch>[] lit, double lengthS) => ShareOverTime.Of(
        from i in Enumerable.Range(0, members.Count)
        where members[i].Patch.Role == PatchRole.Crest
        group i by members[i].Patch.Column into column
        select ((IReadOnlyList<Stretch>)ShareOverTime.Of(column.Select(i => (lit[i], members[i].Weight)), lengthS).AtLeast(scene.Thresholds.CrestLit), 1.0), lengthS);

    private ShareOverTime? Share(IReadOnlyList<Stretch>[] lit, PatchRole role, double lengthS)
    {
        var these = Enumerable.Range(0, members.Count).Where(i => members[i].Patch.Role == role).Select(i => (lit[i], members[i].Weight)).ToList();
        return these.Count == 0 ? null : ShareOverTime.Of(these, lengthS);
    }

    /// <summary>When a member is lit: looks every five minutes, and where its state changes a straight line between two looks.</summary>
    private List<Stretch> LitOf(int i, SunTrack track)
    {
        var stretches = new List<Stretch>();
        var (beforeS, before) = (0.0, ClearanceRad(i, track, 0));
        double? start = before > 0 ? 0 : null;
        while (beforeS < track.LengthS)
        {
            var nowS = Math.Min(track.LengthS, beforeS + LookS);
            var now = ClearanceRad(i, track, nowS);
            if (before > 0 != now > 0)
            {
                var crossS = beforeS + ((nowS - beforeS) * before / (before - now));
                if (start is { } begun) stretches.Add(new Stretch(begun, crossS));
                start = start is null ? crossS : null;
            }
            (beforeS, before) = (nowS, now);
        }
        if (start is { } open) stretches.Add(new Stretch(open, track.LengthS));
        return stretches;
    }

    private double ClearanceRad(int i, SunTrack track, double seconds)
    {
        var (east, north, up) = members[i].Frame.Toward(track.EarthFixedAu(seconds));
        var length = Math.Sqrt((east * east) + (north * north) + (up * up));
        return Math.Asin(up / length) - (level * GeocentricSun.SemidiameterAtOneAu.Radians / length) - table.At(members[i].Index, Math.Atan2(east, north)).AirlessRad;
    }

    private static List<Member> Chosen(Scene scene)
    {
        var patches = scene.Patches.Select((patch, i) => new Member(i, patch, patch.Weight, new ObserverFrame(patch.Ground))).ToList();
        var crest = patches.Where(member => member.Patch.Role == PatchRole.Crest).GroupBy(member => member.Patch.Column)
            .SelectMany(column => column.Where((_, row) => row % CrestRowsKept == 0));
        var valley = patches.Where(member => member.Patch.Role == PatchRole.Valley).ToList();
        var every = Math.Max(1, valley.Count / ValleyPatchesKept);
        return [.. crest, .. valley.Where((_, i) => i % every == 0)];
    }

    /// <param name="Index">Of the patch in the scene.</param>
    private readonly record struct Member(int Index, GroundPatch Patch, double Weight, ObserverFrame Frame);
}
