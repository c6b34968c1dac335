using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using NodaTime;

namespace Glowcast.Engine.Light;

/// <summary>The windows of every day of a range, from one table of horizons (docs/model.md, L10).</summary>
/// <remarks>Part of the crest and of the valley stand for the whole, and moments are good to a minute or two: enough to choose
/// a day, which then gets a forecast of its own.</remarks>
public sealed class Season
{
    public const int MostDays = 5 * 366;

    private const double ShortestS = 60;

    private readonly Scene scene;
    private readonly DateTimeZone? zone;
    private readonly SeasonGround ground;
    private readonly SeasonPicture picture;
    private readonly Place middle;
    private readonly bool asksOfValley;

    private Season(Scene scene, DateTimeZone? zone, SeasonAir air, SeasonGround ground, PictureKind kind)
    {
        (this.scene, this.zone, this.ground, asksOfValley) = (scene, zone, ground, kind == PictureKind.LitRidgeOverDarkGround);
        picture = new SeasonPicture(scene, ground, air);
        middle = SeasonGround.MiddleOf(scene);
    }

    /// <summary>Works out the horizons; what follows for each day costs little.</summary>
    /// <param name="zone">Null to reckon days by the sun.</param>
    /// <param name="air">For brightness and black point; the usual when left out.</param>
    /// <param name="kind">Of picture: one that <see cref="Knows"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">A season knows no such picture.</exception>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static Season Over(
        Scene scene, DateTimeZone? zone, SeasonAir? air = null, PictureKind kind = PictureKind.LitRidgeOverDarkGround, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(scene);
        if (!Knows(kind)) throw new ArgumentOutOfRangeException(nameof(kind), kind, "A season knows no such picture.");
        return new Season(scene, zone, air ?? SeasonAir.Usual, SeasonGround.Of(scene, (air ?? SeasonAir.Usual).Beam, progress, cancel), kind);
    }

    /// <summary>Pictures that its table tells; the others ask for all of the crest, or for another light than the sun's.</summary>
    public static bool Knows(PictureKind kind) => kind is PictureKind.LitRidgeOverDarkGround or PictureKind.LitRidge;

    /// <summary>The days of a range that a filter lets through, in order of time.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The range is empty, or longer than five years.</exception>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public IReadOnlyList<SeasonDay> Days(
        LocalDate from, LocalDate to, SeasonScore score, SeasonFilter? filter = null, IProgress<double>? progress = null, CancellationToken cancel = default) =>
        Days(from, to, score, null, filter, progress, cancel);

    /// <param name="fit">Lays the planned set into a window of a day; null where none is planned.</param>
    /// <inheritdoc cref="Days(LocalDate, LocalDate, SeasonScore, SeasonFilter, IProgress{double}, CancellationToken)"/>
    internal IReadOnlyList<SeasonDay> Days(
        LocalDate from, LocalDate to, SeasonScore score, Func<SeasonLight, DayHalf, Stretch, DayFit>? fit, SeasonFilter? filter, IProgress<double>? progress, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(score);
        var chosen = filter ?? SeasonFilter.All;
        var dates = chosen.DatesOf(from, to);
        var days = new SeasonDay[dates.Count];
        var done = 0;
        Parallel.For(0, dates.Count, AllProcessors.Until(cancel), i =>
        {
            days[i] = DayOf(dates[i], score, fit, chosen);
            progress?.Report((double)Interlocked.Increment(ref done) / dates.Count);
        });
        return days;
    }

    private SeasonDay DayOf(LocalDate date, SeasonScore score, Func<SeasonLight, DayHalf, Stretch, DayFit>? fit, SeasonFilter filter)
    {
        if (SeasonSun.Of(LocalDay.Of(date, scene.Lookout.Point, zone), middle) is not { } sun)
            return SeasonDay.Without(date, "The sun stays more than 6° below the horizon all day.");
        var lit = new IReadOnlyList<Stretch>[ground.Count];
        var beam = ground.BeamOf(sun);
        for (var i = 0; i < lit.Length; i++) lit[i] = ground.Lit(i, sun, beam);
        var thresholds = scene.Thresholds;
        var columns = new ShareOverTime?[scene.Columns];
        foreach (var members in ground.CrestColumns) columns[ground.Patch(members[0]).Column] = Share(members, lit, sun);
        var halves = sun.Halves;
        var ofDay = RidgeOfDay.Of([.. columns.Select(column => column?.Against(thresholds.CrestLit))], halves, sun.LengthS);
        var ridge = ofDay.Share;
        var valley = asksOfValley && ground.Valley.Count > 0 ? Share(ground.Valley, lit, sun) : null;
        var litEnough = ofDay.LitEnough(thresholds);
        var shaded = valley?.AtMost(thresholds.MostValley(scene.ValleyPart));
        var both = shaded is null ? litEnough : Stretch.Common(litEnough, shaded);
        var light = new DayShape(
            Instants(sun.Above(SunEvents.CivilAltitude), sun), Instants(sun.Above(SunEvents.RiseSetAltitude), sun), Instants(litEnough, sun));
        var span = new SpanLight(
            [.. scene.View.Columns.Select(column => column.Bearing)], [.. columns.Select(column => column?.AtLeast(thresholds.CrestLit))], shaded, thresholds.ColumnsLit, sun.LengthS)
        {
            Halves = halves,
            Ridge = litEnough,
        };
        var open = both.FindAll(stretch => stretch.LengthS >= ShortestS);
        var whole = new SeasonLight(date, scene, ground, sun, span, lit, open);
        List<SeasonWindow> windows = [.. open.Select(stretch => Describe(whole, stretch, ridge, valley, fit))];
        if (windows.Count == 0) return SeasonDay.Without(date, NoWindow.Of(ofDay, valley, thresholds, scene.ValleyPart, sun.At(0)).Sentence) with { Shape = light };
        var kept = windows.FindAll(filter.Keeps);
        return (kept.Count > 0 ? score.Judge(date, kept) : SeasonDay.Without(date, SeasonFilter.WhyNone(windows))) with { Shape = light };
    }

    private SeasonWindow Describe(SeasonLight day, Stretch stretch, ShareOverTime ridge, ShareOverTime? valley, Func<SeasonLight, DayHalf, Stretch, DayFit>? judge)
    {
        var sun = day.Sun;
        var time = new Interval(sun.At(stretch.StartS), sun.At(stretch.EndS));
        var middleS = (stretch.StartS + stretch.EndS) / 2;
        var fit = judge?.Invoke(day, day.HalfOf(stretch), stretch);
        // The light of the picture, where one is planned, is the light of its set.
        var seen = picture.At(fit?.Middle is { } middle && stretch.Contains(day.SecondsAt(middle)) ? day.SecondsAt(middle) : middleS, sun);
        var lookout = new ObserverFrame(scene.Lookout);
        var (azimuth, airless, _) = SkyVector.Sighted(lookout.Toward(sun.EarthFixedAu(middleS)));
        return new SeasonWindow
        {
            Time = time,
            Begins = LocalDay.ClockAt(time.Start, scene.Lookout.Point, zone),
            Half = day.HalfOf(stretch),
            Fit = fit,
            RidgeShare = ridge.MeanOver(stretch),
            ValleyShare = valley?.MeanOver(stretch),
            SunAltitudeDeg = Refraction.ToApparent(airless, scene.Lookout.Height).Degrees,
            SunFromViewDeg = scene.Span.Centre.TurnTo(azimuth).Abs().Degrees,
            Relief = seen.Relief,
            BlackPoint = seen.BlackPoint,
            BeamColour = seen.BeamColour,
            Moon = MoonThen.Of(sun.At(middleS), scene.Lookout, scene.Span),
            Thresholds = scene.Thresholds,
        };
    }

    private ShareOverTime Share(IReadOnlyList<int> members, IReadOnlyList<Stretch>[] lit, SeasonSun sun) =>
        ShareOverTime.Of(members.Select(i => (lit[i], ground.Patch(i).Weight)), sun.LengthS);

    private static List<Interval> Instants(List<Stretch> stretches, SeasonSun sun) =>
        stretches.ConvertAll(stretch => new Interval(sun.At(stretch.StartS), sun.At(stretch.EndS)));
}
