namespace Glowcast.Cli.Tests;

public class SeasonCommandTests(MadeValley valley) : IClassFixture<MadeValley>
{
    [Fact]
    public async Task Days_come_ranked_with_their_windows_and_reasons()
    {
        var season = (await Outcome.Of("season", "--plan", valley.Plan, "--from", "2026-03-15", "--to", "2026-03-24", "--json")).Json;
        var days = season.GetProperty("days").EnumerateArray().ToList();

        Assert.Equal(10, days.Count);
        Assert.Equal(Enumerable.Range(1, 10), days.Select(day => day.GetProperty("rank").GetInt32()));
        var scores = days.Select(day => day.GetProperty("score").GetDouble()).ToList();
        Assert.Equal(scores.OrderDescending(), scores);
        Assert.All(days, day => Assert.NotEmpty(day.GetProperty("reasons").EnumerateArray()));
        // The plan's own day has the window that its forecast has.
        var forecast = (await Outcome.Of("forecast", "--plan", valley.Plan, "--json")).Json.GetProperty("windows")[0];
        var own = days.Single(day => day.GetProperty("date").GetString() == "2026-03-20").GetProperty("windows")[0];
        foreach (var end in (string[])["start", "end"])
            Assert.Equal(0, (own.GetProperty(end).GetDateTimeOffset() - forecast.GetProperty(end).GetDateTimeOffset()).TotalMinutes, 2.5);
    }

    [Fact]
    public async Task The_page_fits_and_names_the_best_day()
    {
        var page = await Outcome.Of("season", "--plan", valley.Plan, "--from", "2026-03-15", "--to", "2026-03-17");
        Assert.Equal(0, page.Exit);
        Assert.Contains("Why 2026-03-1", page.Out, StringComparison.Ordinal);
        Assert.All(page.Lines, line => Assert.True(line.Length <= 80, line));
    }

    [Theory]
    [InlineData("2026-03-15", "2026-03-14", "--to")]
    [InlineData("2026-03-15", "2032-01-01", "--to")]
    [InlineData("1949-03-15", "2026-03-14", "--from")]
    [InlineData("2026-02-30", "2026-03-14", "--from")]
    public async Task A_range_that_is_none_is_refused(string from, string to, string blamed) =>
        Assert.Contains(blamed, (await Outcome.Of("season", "--plan", valley.Plan, "--from", from, "--to", to)).Faults);
}
