using System.Globalization;
using Glowcast.Engine.Capture;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Tests.Light;
using NodaTime;

namespace Glowcast.Engine.Tests.Forecast;

/// <summary>Of plans said to be nine in ten, nine in ten are whole: mornings drawn with heights, k and refraction really off, as in
/// <see cref="UncertaintyTests"/>, and sets of all lengths begun at all times held against each.</summary>
/// <remarks>A few draws always; the table of docs/accuracy.md with GLOWCAST_DRAWS=1000.</remarks>
public class ChanceCalibrationTests
{
    private const double HeightErrorM = 5;
    private const int Bins = 11;

    private static readonly double[] SharesOfWindow = [0.05, 0.3, 0.6, 0.8, 0.86, 0.9, 0.92, 0.94, 0.96, 0.98];

    private static readonly int Draws = int.TryParse(Environment.GetEnvironmentVariable("GLOWCAST_DRAWS"), CultureInfo.InvariantCulture, out var asked) ? asked : 40;

    [Fact]
    public void Of_plans_said_to_be_nine_in_ten_nine_in_ten_are_whole()
    {
        var stated = UncertaintyTests.Chart(UncertaintyTests.Ground((_, _) => 0).With(new HeightError(Length.FromMetres(HeightErrorM), HeightErrorSource.Grid)), SightModel.Usual);
        var plan = ValleyLight.Plan with
        {
            Span = stated.Scene.Span,
            Gear = ValleyLight.Plan.Gear! with { Lens = new Lens(Length.FromMillimetres(400), 11) },
            Chances = ChanceBounds.Usual with { UnknownMost = 1 },
        };
        var day = JudgedDay.Of(DayOf(stated, plan));
        var length = day.Windows[0].Stretch.LengthS;
        var plans = (
            from share in SharesOfWindow
            let sets = SetsOf(plan, share * length)
            let judge = new SetJudge(day, day.Windows[0], sets)
            from look in Enumerable.Range(-30, 90)
            let startS = judge.Best!.First.StartS + (look * 4)
            select (Sets: sets, Start: day.At(startS), Chance: judge.ChanceOf(startS))).ToList();
        var (said, whole) = (new double[Bins], new double[Bins]);
        var counts = new int[Bins];
        var random = new Random(1906);
        for (var draw = 0; draw < Draws; draw++)
        {
            var truth = Shifted(UncertaintyTests.Drawn(random, HeightErrorM), plan);
            foreach (var group in plans.GroupBy(entry => entry.Sets))
            {
                var judge = new SetJudge(truth, truth.Windows[0], group.Key);
                foreach (var (_, start, chance) in group)
                {
                    var bin = (int)Math.Round(chance * (Bins - 1));
                    counts[bin]++;
                    said[bin] += chance;
                    if (!judge.MissedFrom(truth.SecondsAt(start)).Any()) whole[bin]++;
                }
            }
        }
        for (var bin = 0; bin < Bins; bin++)
            TestContext.Current.TestOutputHelper!.WriteLine($"said {said[bin] / counts[bin]:0.000}, whole {whole[bin] / counts[bin]:0.000}, of {counts[bin]}");
        // The bin of nine in ten holds what is said to be 0.85 to 0.95; forty draws give a share of 0.9 to 5 %.
        var slack = Draws < 1000 ? 0.08 : 0;
        Assert.InRange(whole[9] / counts[9], 0.85 - slack, 0.95 + slack);
        Assert.All(Enumerable.Range(1, 8), bin => Assert.InRange(whole[bin] / counts[bin], (said[bin] / counts[bin]) - 0.12 - slack, (said[bin] / counts[bin]) + 0.12 + slack));
    }

    /// <summary>A set whose exposures take so long, by waiting for the tripod.</summary>
    private static SetSequence SetsOf(Plan plan, double seconds)
    {
        var settings = plan.Set with { Rows = 1, Repeats = 0 };
        var quick = PlannedSet.Of(plan, settings, null, []).Clock;
        var more = Math.Max(0, (seconds - quick.Exposures[^1].End.TotalSeconds) / (quick.Exposures.Count - 1));
        return new SetSequence(PlannedSet.Of(plan, settings with { Times = settings.Times with { Settle = settings.Times.Settle + Duration.FromSeconds(more) } }, null, []));
    }

    private static LightOfDay DayOf(LightChart chart, Plan plan) => new(
        chart, WindowSearch.Windows(chart), RidgeBrightness.Of(chart.Scene, chart.Track, plan.Conditions.Haze)!, SetWishes.Of(plan, plan.Date!.Value));

    /// <summary>The light of a drawn morning, all of the ridge's and of the valley's as much later as less refraction makes it.</summary>
    private static JudgedDay Shifted((LightChart Chart, double Refraction) drawn, Plan plan)
    {
        var light = DayOf(drawn.Chart, plan);
        var day = JudgedDay.Of(light);
        var (window, edges) = (day.Windows[0], light.Windows[0]);
        var ridgeS = UncertaintyTests.RefractionShiftS(drawn.Chart, edges.Start, drawn.Refraction, role => role == PatchRole.Crest);
        var valleyS = UncertaintyTests.RefractionShiftS(drawn.Chart, edges.End, drawn.Refraction, role => role == PatchRole.Valley);
        var span = window.Span with
        {
            Lit = [.. window.Span.Lit.Select(lit => lit?.Select(stretch => Moved(stretch, ridgeS)).ToList())],
            Shaded = window.Span.Shaded?.Select(stretch => stretch with { EndS = stretch.EndS + valleyS }).ToList(),
        };
        return day with { Windows = [window with { Span = span, Stretch = new Stretch(window.Stretch.StartS + ridgeS, window.Stretch.EndS + valleyS) }] };
    }

    private static Stretch Moved(Stretch stretch, double seconds) => new(stretch.StartS + seconds, stretch.EndS + seconds);
}
