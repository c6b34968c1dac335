namespace Glowcast.Cli.Tests;

public class CardCommandTests(MadeValley valley) : IClassFixture<MadeValley>
{
    [Theory]
    [InlineData("html", "<!DOCTYPE html>")]
    [InlineData("ics", "BEGIN:VCALENDAR")]
    [InlineData("svg", "<svg")]
    [InlineData("CSV", "set,frame,row")]
    public async Task The_name_of_the_file_says_what_is_written(string extension, string begins)
    {
        var path = valley.Write($"out.{extension}", "older");
        var answer = (await Outcome.Of("card", "--plan", valley.Plan, "--out", path, "--json")).Json;
        Assert.StartsWith(begins, await File.ReadAllTextAsync(path, TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Equal(new FileInfo(path).Length, answer.GetProperty("bytes").GetInt64());
        Assert.Equal("fits", answer.GetProperty("verdict").GetString());
    }

    [Fact]
    public async Task A_day_without_light_gives_a_card_that_says_why()
    {
        var dark = valley.Write("dark.json", MadeValley.PlanWith(("span.ridgeFromKm", 60)).ToJsonString());
        var path = valley.Write("dark.html", "");
        var outcome = await Outcome.Of("card", "--plan", dark, "--out", path);
        Assert.Equal(0, outcome.Exit);
        Assert.Contains("No light.", outcome.Out, StringComparison.Ordinal);
        Assert.Contains("there is no ridge to light", await File.ReadAllTextAsync(path, TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Declination_and_travel_come_from_the_line_or_the_plan()
    {
        var inPlan = valley.Write("declined.json", MadeValley.PlanWith(("lookout.magneticDeclinationDeg", 7.5)).ToJsonString());
        var path = valley.Write("declined.html", "");
        Assert.Contains("Declination 7.5° east, as given by hand", await CardAsync("--plan", inPlan, "--out", path), StringComparison.Ordinal);
        Assert.Contains("Declination 3.0° west, as given by hand", await CardAsync("--plan", inPlan, "--out", path, "--declination", "-3"), StringComparison.Ordinal);
        Assert.NotEqual(await CardAsync("--plan", inPlan, "--out", path, "--travel", "20"), await CardAsync("--plan", inPlan, "--out", path, "--travel", "50"));

        async Task<string> CardAsync(params string[] words)
        {
            Assert.Equal(0, (await Outcome.Of(["card", .. words])).Exit);
            return await File.ReadAllTextAsync(path, TestContext.Current.CancellationToken);
        }
    }

    [Fact]
    public async Task All_that_is_wrong_is_said_before_the_work_begins()
    {
        Assert.Equal(["--out", "--travel", "--declination"], (await Outcome.Of("card", "--plan", valley.Plan, "--out", "card.pdf", "--travel", "-1", "--declination", "east")).Faults);
        Assert.Equal(["--out"], (await Outcome.Of("card", "--plan", valley.Plan)).Faults);
        Assert.Equal(["--out"], (await Outcome.Of("card", "--plan", valley.Plan, "--out", $"{valley.Folder}/no/card.csv")).Faults);
        Assert.Equal(["--out"], (await Outcome.Of("card", "--plan", valley.Plan, "--out", Directory.CreateDirectory($"{valley.Folder}/folder.csv").FullName)).Faults);
    }
}
