using System.Globalization;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Light;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;
using NodaTime;

namespace Glowcast.Benchmarks;

/// <summary>What a year of days costs once its horizons are known, against light charts of single days from scratch, in one run:
/// processor seconds (user and system, all threads), and their ratio.</summary>
internal static class SeasonCost
{
    /// <param name="planFile">Its grids lie beside it.</param>
    public static void Run(string planFile)
    {
        using var stream = File.OpenRead(planFile);
        var plan = PlanReader.Read(stream, PlanNeeds.Light);
        var grid = GridMosaic.Join([.. plan.Grids.Select(name => Tiles.Read(Path.Combine(Path.GetDirectoryName(Path.GetFullPath(planFile))!, name)))]);
        var lookout = plan.Lookout!;
        var date = plan.Date!.Value;
        LocalDate[] days = [date, date.PlusMonths(4), date.PlusMonths(8)];
        Chart(date);

        var chartsS = AgainstGrass.Median(() =>
        {
            foreach (var day in days) Chart(day);
        });
        Season? season = null;
        var tableS = AgainstGrass.Median(() => season = Season.Over(SceneOf(), lookout.Zone));
        var yearS = AgainstGrass.Median(() => season!.Days(date, date.PlusDays(364), new SeasonScore()));
        Print("three_charts_from_scratch_s", chartsS);
        Print("horizon_table_s", tableS);
        Print("year_s", yearS);
        Print("year_over_three_charts", yearS / chartsS);
        Print("year_and_table_over_three_charts", (yearS + tableS) / chartsS);

        void Chart(LocalDate day) => LightChart.Over(SceneOf(), LocalDay.Of(day, lookout.Point, lookout.Zone));

        Scene SceneOf() => Scene.Of(grid, plan.Conditions.Sight, Forecaster.EyeOf(lookout, grid), plan.Span, plan.Thresholds, plan.Conditions.DeckTop);
    }

    private static void Print(string name, double value) =>
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name}={value:0.###}"));
}
