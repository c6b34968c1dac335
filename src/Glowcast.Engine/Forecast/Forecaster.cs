using Glowcast.Engine.Capture;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Sky;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Forecast;

/// <summary>Answers plans. A forecast is a pure function of plan and grid.</summary>
public static class Forecaster
{
    // Sides of the ridge that gain or lose their light within this of each other do so together.
    private const double TogetherS = 45;

    /// <param name="plan">Read with <see cref="PlanNeeds.Light"/>, or with <see cref="PlanNeeds.Forecast"/> for the set too.</param>
    /// <param name="progress">Share done, 0 to 1.</param>
    /// <exception cref="BadInputException">The grid does not hold the lookout, or the set cannot be shot.</exception>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static LightForecast Forecast(Plan plan, ElevationGrid grid, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(grid);
        var lookout = plan.Lookout ?? throw new ArgumentException("The plan has no lookout.", nameof(plan));
        var day = LocalDay.Of(plan.Date ?? throw new ArgumentException("The plan has no date.", nameof(plan)), lookout.Point, lookout.Zone);
        var eye = EyeOf(lookout, grid);
        if (plan.Gear is not null) PlannedSet.Of(plan);
        if (plan.Conditions.DeckTop is { } deck && eye.Height <= deck)
            return Without(null, $"The lookout's eye, at {eye.Height.Metres:0} m, is under the cloud, whose top is at {deck.Metres:0} m: nothing is seen.");

        RefuseAir(plan, eye, grid);
        var scene = Scene.Of(grid, plan.Conditions.Sight, eye, plan.Span, plan.Thresholds, plan.Conditions.DeckTop);
        if (scene.HighestCrest is not { } crest)
            return Without(scene, $"No ground farther than {plan.Thresholds.RidgeFrom.Kilometres:0.#} km is visible in the span {plan.Span}: there is no ridge to light.");
        if (LightChart.Over(scene, day, progress, cancel) is not { } chart)
            return Without(scene, "The sun stays more than 6° below the horizon all day.");

        var windows = WindowSearch.Windows(chart);
        var light = new LightOfDay(
            chart, windows, RidgeBrightness.Of(scene, chart.Track, plan.Conditions.Haze, plan.Conditions.Air)!, plan.ExposureDriftStops);
        var set = plan.Gear is null ? null : Ordered(plan, chart, windows, crest);
        var fit = set is null ? null : FitSearch.Fit(light, new SetSequence(set));
        var cure = set is null ? null : Remedies.For(light, set, fit!, crest);
        return new LightForecast(plan, day, eye, scene, chart, windows, WhyNoWindow(chart, windows), set, fit, cure?.Remedies ?? [], Cautions.For(windows))
        {
            Brightness = light.Ridge,
            WhyNothingFits = fit is { Verdict: Verdict.NoLight } ? WhyNoWindow(chart, windows) : cure?.WhyNothingFits,
        };

        LightForecast Without(Scene? scene, string why) => new(
            plan, day, eye, scene, null, [], why, plan.Gear is null ? null : PlannedSet.Of(plan, scene?.HighestCrest),
            plan.Gear is null ? null : SetFit.NoLight, [], Cautions.For([]))
        {
            WhyNothingFits = plan.Gear is null ? null : why,
        };
    }

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

    private static PlannedSet Ordered(Plan plan, LightChart chart, IReadOnlyList<LightWindow> windows, Angle crest)
    {
        var first = PlannedSet.Of(plan, crest);
        var ridgeRow = first.RowOf(crest);
        if (!plan.ChooseDirection)
            return PlannedSet.Of(plan, plan.Set with { Order = plan.Set.Order with { FirstRow = ridgeRow } }, crest, []);
        var (loses, gains) = windows.Count > 0 ? SidesOf(chart, windows.MaxBy(window => window.Length)!) : default;
        var choice = OrderChoice.For(new OrderSituation(first.Layout.Rows, ridgeRow, loses, gains));
        // How rows follow one another is the plan's to say; the light decides the side and the row to begin with.
        var order = choice.Order with { Rows = plan.Set.Order.Rows };
        return PlannedSet.Of(plan, plan.Set with { Order = order }, crest, [.. choice.Reasons.Take(2)]);
    }

    /// <summary>The side of the ridge that loses its light first when that ends the window, or gains it first when that opens it.</summary>
    private static (Side? Loses, Side? Gains) SidesOf(LightChart chart, LightWindow window)
    {
        var middleS = chart.Track.SecondsAt(window.Start.At + (window.Length / 2));
        var lit = Enumerable.Range(0, chart.Scene.Columns)
            .Select(column => (Column: column, Lit: chart.ColumnLit[column].Find(stretch => stretch.StartS <= middleS && middleS < stretch.EndS)))
            .Where(entry => entry.Lit.LengthS > 0).ToList();
        var third = chart.Scene.Columns / 3;
        var left = lit.Where(entry => entry.Column < third).Select(entry => entry.Lit).ToList();
        var right = lit.Where(entry => entry.Column >= chart.Scene.Columns - third).Select(entry => entry.Lit).ToList();
        if (left.Count == 0 || right.Count == 0) return default;
        Side? loses = null, gains = null;
        if (window.End.Cause == WindowEdgeCause.RidgeShaded)
            loses = Earlier(left.Average(stretch => stretch.EndS), right.Average(stretch => stretch.EndS));
        if (window.Start.Cause == WindowEdgeCause.RidgeLit)
            gains = Earlier(left.Average(stretch => stretch.StartS), right.Average(stretch => stretch.StartS));
        return (loses, gains);
    }

    private static Side? Earlier(double leftS, double rightS) =>
        Math.Abs(leftS - rightS) < TogetherS ? null : leftS < rightS ? Side.Left : Side.Right;

    private static string? WhyNoWindow(LightChart chart, IReadOnlyList<LightWindow> windows)
    {
        if (windows.Count > 0) return null;
        var thresholds = chart.Scene.Thresholds;
        if (chart.RidgeColumns.AtLeast(thresholds.ColumnsLit).Count == 0)
            return $"Direct sun never reaches {thresholds.ColumnsLit:0%} of the ridge at once; at most {chart.RidgeColumns.Greatest:0%} of it is lit.";
        return $"Whenever {thresholds.ColumnsLit:0%} of the ridge is lit, more than {thresholds.ValleyLit:0%} of the valley is lit too.";
    }
}
