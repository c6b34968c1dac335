using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Weather;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>Answers plans. A forecast is a pure function of plan and grid.</summary>
public static class Forecaster
{
    /// <inheritdoc cref="Forecast(Plan, ElevationGrid, HorizonShelf, IProgress{double}, CancellationToken)"/>
    public static LightForecast Forecast(Plan plan, ElevationGrid grid, IProgress<double>? progress = null, CancellationToken cancel = default) =>
        Forecast(plan, grid, new HorizonShelf(), progress, cancel);

    /// <param name="plan">Read with <see cref="PlanNeeds.Light"/>, or with <see cref="PlanNeeds.Forecast"/> for the set too.</param>
    /// <param name="horizons">Where the horizons of scenes are kept from one forecast to the next.</param>
    /// <param name="progress">Share done, 0 to 1.</param>
    /// <exception cref="BadInputException">The grid does not hold the lookout, or the set cannot be shot.</exception>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static LightForecast Forecast(
        Plan plan, ElevationGrid grid, HorizonShelf horizons, IProgress<double>? progress = null, CancellationToken cancel = default) =>
        Answer(plan, grid, horizons, withSet: true, progress, cancel);

    /// <summary>The light on the plan's span by itself: no set is laid into it, whatever gear the plan has.</summary>
    /// <inheritdoc cref="Forecast(Plan, ElevationGrid, HorizonShelf, IProgress{double}, CancellationToken)"/>
    public static LightForecast LightAlone(Plan plan, ElevationGrid grid, IProgress<double>? progress = null, CancellationToken cancel = default) =>
        Answer(plan, grid, new HorizonShelf(), withSet: false, progress, cancel);

    private static LightForecast Answer(
        Plan plan, ElevationGrid grid, HorizonShelf horizons, bool withSet, IProgress<double>? progress, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(grid);
        var lookout = plan.Lookout ?? throw new ArgumentException("The plan has no lookout.", nameof(plan));
        var day = LocalDay.Of(plan.Date ?? throw new ArgumentException("The plan has no date.", nameof(plan)), lookout.Point, lookout.Zone);
        grid = AsKnown(grid, plan);
        var eye = EyeOf(lookout, grid);
        var given = GivenDeck.Of(plan.Conditions);
        plan = plan with { Conditions = given.In(plan.Conditions) };
        withSet &= plan.Gear is not null;
        if (plan.Gear is not null) PlannedSet.Of(plan);
        var bare = VisibleSurface.From(grid, plan.Conditions.Sight, eye, plan.Span, Scene.ColumnsOf(plan.Span));
        if (plan.Conditions.DeckTop is { } deck && eye.Height <= deck)
            return Without(NoLightCause.LookoutInCloud, null, $"The lookout's eye, at {eye.Height.Metres:0} m, is under the cloud, whose top is at {deck.Metres:0} m: nothing is seen.");

        RefuseAir(plan, eye, grid);
        var scene = Scene.Of(grid, plan.Conditions.Sight, eye, plan.Span, plan.Thresholds, plan.Conditions.DeckTop, horizons, Framing.Of(plan));
        if (scene.HighestCrest is not { } crest)
            return NoRidge(scene);
        if (!scene.ShowsRidge) return Without(NoLightCause.RidgeOutsideThePicture, scene, OutsideThePicture(scene, crest));
        if (LightChart.Over(scene, day, plan.Conditions.Beam, progress, cancel) is not { } chart)
            return Without(NoLightCause.SunStaysDown, scene, "The sun stays more than 6° below the horizon all day.");

        var brightness = RidgeBrightness.Of(scene, chart.Track, plan.Conditions.Haze, plan.Conditions.Air)!;
        var pictures = new PicturesOfDay(plan, day, scene, chart, brightness);
        var light = pictures.Of(plan.Picture, cancel);
        var windows = light.Windows;
        var set = withSet ? SetOrder.For(plan, light.Span, light.Stretches, crest) : null;
        var fit = set is null ? null : FitSearch.Fit(light, new SetSequence(set));
        // With the exposure of the window that it is laid into.
        set = fit?.Judged?.Sets.Parts[0] ?? set;
        // What would help is asked for the best start, whatever start the plan gives.
        var free = light with { Wishes = light.Wishes with { Start = null } };
        var best = set is null || plan.StartAt is null ? fit : FitSearch.Fit(free, new SetSequence(set));
        var cure = set is null ? null : Remedies.For(free, set, best!, crest);
        var other = set is null || best!.IsPossible ? null : AnotherDay.For(plan with { StartAt = null }, scene, set, best, crest, there => FitOn(there, scene, crest, cancel), cancel);
        var none = windows.Count == 0 ? NoWindow.Of(chart, light.Kind) : null;
        return new LightForecast(plan, day, eye, scene, light.Chart, windows, none?.Sentence, set, fit, Together(cure, other), [.. Cautions.For(windows), .. given.Cautions])
        {
            Cloud = CloudOver(plan, given, bare, day, windows) with
            {
                Light = DeckLight.Of(chart),
                Sunward = SunwardPath.Cuts(plan.Conditions.CloudLayers, windows, brightness.Crest, plan.Conditions.Sight),
            },
            Weather = WeatherOutlook.Of(plan.Conditions.Weather, [.. windows.Select(window => new Interval(window.Start.At, window.End.At))], scene),
            Brightness = light.Ridge,
            Pictures = pictures.All(light, withSet ? crest : null, cancel),
            NearestMiss = none?.Nearest,
            NoLight = none is null ? null : NoLightCauses.Of(none, chart),
            WhyNothingFits = set is null || other is not null ? null : none?.Sentence ?? cure?.WhyNothingFits,
        };

        LightForecast NoRidge(Scene scene) => NoLightCauses.WithoutRidge(scene.View, plan.Thresholds.RidgeFrom) is NoLightCause.NearGroundInTheWay
            ? Without(NoLightCause.NearGroundInTheWay, scene, $"Ground nearer than {plan.Thresholds.RidgeFrom.Kilometres:0.#} km stands in the way over the span {plan.Span}: no ridge is seen behind it.")
            : Without(NoLightCause.NoRidgeInView, scene, $"No ground farther than {plan.Thresholds.RidgeFrom.Kilometres:0.#} km is visible in the span {plan.Span}: there is no ridge to light.{WhereTheGridEnds(scene)}");

        LightForecast Without(NoLightCause cause, Scene? scene, string why) => new(
            plan, day, eye, scene, null, [], why, withSet ? PlannedSet.Of(plan, scene?.HighestCrest) : null,
            withSet ? SetFit.NoLight : null, [], [.. Cautions.For([]), .. given.Cautions])
        {
            Cloud = CloudOver(plan, given, bare, day, []),
            NoLight = cause,
            WhyNothingFits = withSet ? why : null,
        };
    }

    /// <summary>The sounding is judged for the middle of the first window, or of the day.</summary>
    /// <param name="bare">What is seen without cloud.</param>
    private static CloudOutlook CloudOver(Plan plan, GivenDeck given, VisibleSurface bare, Interval day, IReadOnlyList<LightWindow> windows) => new(
        given,
        plan.Conditions.Profile is { } profile
            ? ProfileReach.Of(profile.Sounding, plan.Lookout!.Point, windows.Count > 0 ? windows[0].Middle : day.Start + (day.Duration / 2))
            : null,
        DeckSweep.Of(bare, plan.Conditions.Sight, plan.Thresholds.RidgeFrom));

    private static string OutsideThePicture(Scene scene, Angle crest) =>
        $"The picture shows {scene.Picture.Bottom.Degrees:0.#}° to {scene.Picture.Top.Degrees:0.#}° of altitude and no ridge, whose highest crest stands at {crest.Degrees:0.#}°: pitch the rows to it.";

    /// <summary>A hint where no bearing of the span reaches as far as the ridge begins.</summary>
    private static string WhereTheGridEnds(Scene scene)
    {
        var farthest = scene.View.Columns.Max(column => column.GridEdge);
        return farthest < scene.Thresholds.RidgeFrom ? $" The grid ends {farthest.Kilometres:0.#} km away in this direction; add the next one." : "";
    }

    /// <summary>The plan's set over the light of its day, and the set; null without any light.</summary>
    private static (PlannedSet Set, SetFit Fit)? FitOn(Plan plan, Scene scene, Angle crest, CancellationToken cancel)
    {
        var day = LocalDay.Of(plan.Date!.Value, plan.Lookout!.Point, plan.Lookout.Zone);
        if (LightChart.Over(scene, day, plan.Conditions.Beam, cancel: cancel) is not { } chart) return null;
        var brightness = RidgeBrightness.Of(scene, chart.Track, plan.Conditions.Haze, plan.Conditions.Air)!;
        var light = new PicturesOfDay(plan, day, scene, chart, brightness).Of(plan.Picture, cancel);
        var set = SetOrder.For(plan, light.Span, light.Stretches, crest);
        return (set, FitSearch.Fit(light, new SetSequence(set)));
    }

    // By what they cost the print; of those that cost the same, what can be done on the day itself comes first.
    private static IReadOnlyList<Remedy> Together(Cure? cure, Remedy? other) => other is null
        ? cure?.Remedies ?? []
        : [.. (cure?.Remedies ?? []).Append(other).OrderBy(remedy => Math.Round(remedy.PrintCost.PixelsLost, 3)).ThenBy(remedy => Math.Round(remedy.PrintCost.SafetyLost, 3))];

    /// <summary>The same light for every day of a range, in order of time, to a minute or two.</summary>
    /// <param name="plan">Read with <see cref="PlanNeeds.Lookout"/>; its date is not used.</param>
    /// <param name="filter">The days and hours wanted; all when left out.</param>
    /// <param name="horizons">Where the horizons of scenes are kept from one season to the next; with this one alone when left out.</param>
    /// <inheritdoc cref="Forecast(Plan, ElevationGrid, HorizonShelf, IProgress{double}, CancellationToken)"/>
    public static IReadOnlyList<SeasonDay> Season(
        Plan plan, ElevationGrid grid, LocalDate from, LocalDate to, SeasonFilter? filter = null, HorizonShelf? horizons = null, IProgress<double>? progress = null,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(grid);
        var lookout = plan.Lookout ?? throw new ArgumentException("The plan has no lookout.", nameof(plan));
        var picture = plan.Picture;
        if (!Light.Season.Knows(picture))
            throw new BadInputException("picture", "A season knows litRidgeOverDarkGround and litRidge; ask for this picture day by day, with a forecast.");
        grid = AsKnown(grid, plan);
        var eye = EyeOf(lookout, grid);
        RefuseAir(plan, eye, grid);
        var deck = GivenDeck.Of(plan.Conditions).Top;
        var score = new SeasonScore(plan.Gear is null ? null : PlannedSet.Of(plan).Clock.Total) { Weights = plan.SeasonWeights };
        if (deck is { } top && eye.Height <= top) return Nothing($"The lookout's eye, at {eye.Height.Metres:0} m, is under the cloud, whose top is at {top.Metres:0} m.");
        var scene = Scene.Of(grid, plan.Conditions.Sight, eye, plan.Span, plan.Thresholds, deck, horizons, Framing.Of(plan));
        if (scene.HighestCrest is not { } crest) return Nothing($"No ground farther than {plan.Thresholds.RidgeFrom.Kilometres:0.#} km is visible in the span {plan.Span}.");
        if (!scene.ShowsRidge) return Nothing(OutsideThePicture(scene, crest));
        // The horizons take about as long as a season of days.
        var season = Light.Season.Over(scene, lookout.Zone, plan.Conditions.SeasonAir, picture, PartProgress.Of(progress, 0, 0.5), cancel);
        return season.Days(from, to, score, plan.Gear is null ? null : new SeasonJudge(plan, crest).FitOf, filter, PartProgress.Of(progress, 0.5, 0.5), cancel);

        List<SeasonDay> Nothing(string why) => [.. (filter ?? SeasonFilter.All).DatesOf(from, to).Select(date => SeasonDay.Without(date, why))];
    }

    private static ElevationGrid AsKnown(ElevationGrid grid, Plan plan) =>
        plan.HeightError is { } size ? grid.With(new HeightError(size, HeightErrorSource.Plan)) : grid;

    /// <summary>The lookout's eye over the ground of the grid.</summary>
    /// <exception cref="BadInputException">The grid has no ground there.</exception>
    public static Place EyeOf(Lookout lookout, ElevationGrid grid)
    {
        var posts = grid.Posts;
        if (!grid.Contains(lookout.Point))
        {
            throw new BadInputException(
                "lookout",
                $"Lies outside the grid {grid.Name}, which reaches from {posts.SouthDeg:0.####} to {posts.NorthDeg:0.####} latitude and from {posts.WestDeg:0.####} to {posts.EastDeg:0.####} longitude; got {lookout.Point}.");
        }
        return grid.HeightAt(lookout.Point) is { } ground
            ? new Place(lookout.Point, ground + lookout.EyeHeight)
            : throw new BadInputException("lookout", $"Stands beside a hole in the grid {grid.Name}, which has no height at {lookout.Point}; move it, or take a grid without the hole.");
    }

    private static void RefuseAir(Plan plan, Place eye, ElevationGrid grid)
    {
        if (plan.Conditions.Air is not { } air) return;
        var highest = grid.Relief.Highest ?? eye.Height;
        if (!air.CanStandAt(eye.Height) || !air.MovedTo(eye.Height, highest).CanStandAt(highest))
        {
            throw new BadInputException(
                "conditions.pressureHPa",
                $"Such air cannot stand at the lookout, {eye.Height.Metres:0} m high, where about {Air.Standard(eye.Height).PressureHPa:0} hPa are usual: give the pressure at the lookout, not reduced to sea level; got {air.PressureHPa:0.#} hPa at {air.TemperatureC:0.#} °C.");
        }
    }
}
