using System.Text;
using System.Xml.Linq;

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

    [Fact]
    public async Task The_parts_of_a_score_add_up_to_it()
    {
        var season = (await Outcome.Of("season", "--plan", valley.Plan, "--from", "2026-03-15", "--to", "2026-03-16", "--json")).Json;
        foreach (var day in season.GetProperty("days").EnumerateArray())
        {
            var parts = day.GetProperty("parts").EnumerateArray().ToList();
            Assert.Equal(8, parts.Count);
            var sum = parts.Sum(part => part.GetProperty("weight").GetDouble() * part.GetProperty("value").GetDouble());
            Assert.Equal(sum * day.GetProperty("shortfall").GetDouble(), day.GetProperty("score").GetDouble(), 0.001);
            Assert.Equal(parts.Select(part => part.GetProperty("reason").GetString()), day.GetProperty("reasons").EnumerateArray().Select(reason => reason.GetString()));
            var moon = day.GetProperty("windows")[day.GetProperty("best").GetInt32()].GetProperty("moon");
            // New moon 19 March 2026 01:23 UTC (Espenak & Meeus).
            Assert.InRange(moon.GetProperty("ageDays").GetDouble(), 25, 29);
            Assert.False(moon.GetProperty("isWaxing").GetBoolean());
        }
    }

    [Fact]
    public async Task Several_plans_and_spans_are_ranked_together_under_their_names()
    {
        var other = valley.Write("north.json", MadeValley.PlanWith(("span", System.Text.Json.Nodes.JsonNode.Parse("""{ "fromDeg": 270, "toDeg": 290 }"""))).ToJsonString());
        var season = (await Outcome.Of("season", "--plan", valley.Plan, "--plan", other, "--from", "2026-03-15", "--to", "2026-03-17", "--json")).Json;
        Assert.Equal(["plan", "north"], Names(season.GetProperty("plans"), "name"));
        Assert.Equal(290, season.GetProperty("plans")[1].GetProperty("toDeg").GetDouble());
        Assert.Equal(0.9, season.GetProperty("plans")[1].GetProperty("assumed").GetProperty("columnsLit").GetDouble());
        var days = season.GetProperty("days");
        Assert.Equal(["north", "north", "north", "plan", "plan", "plan"], Names(days, "plan").Order());
        Assert.Equal(Enumerable.Range(1, 6), days.EnumerateArray().Select(day => day.GetProperty("rank").GetInt32()));

        var spans = (await Outcome.Of("season", "--plan", valley.Plan, "--span", "260..270", "--span", "270..280", "--from", "2026-03-15", "--to", "2026-03-15", "--json")).Json;
        Assert.Equal(["plan 260°..270°", "plan 270°..280°"], Names(spans.GetProperty("plans"), "name"));
    }

    [Fact]
    public async Task Only_the_weekdays_and_hours_asked_for_come()
    {
        var season = (await Outcome.Of(
            "season", "--plan", valley.Plan, "--from", "2026-03-09", "--to", "2026-03-22", "--weekdays", "sat,sun", "--half", "morning", "--hours", "05:00..09:00", "--json")).Json;
        var days = season.GetProperty("days");
        Assert.Equal(["2026-03-14", "2026-03-15", "2026-03-21", "2026-03-22"], Names(days, "date").Order());
        Assert.All(days.EnumerateArray(), day => Assert.Contains(day.GetProperty("weekday").GetString(), (string[])["saturday", "sunday"]));
        Assert.All(days.EnumerateArray().SelectMany(day => day.GetProperty("windows").EnumerateArray()), window => Assert.Equal("morning", window.GetProperty("half").GetString()));
    }

    [Fact]
    public async Task The_table_in_a_file_has_a_line_for_every_day()
    {
        var file = Path.Combine(valley.Folder, "season.csv");
        var days = (await Outcome.Of("season", "--plan", valley.Plan, "--from", "2026-03-15", "--to", "2026-03-24", "--csv", file, "--json")).Json.GetProperty("days");
        var lines = (await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken)).Split("\r\n");
        Assert.Equal(12, lines.Length);
        Assert.Empty(lines[^1]);
        var header = lines[0].Split(',');
        Assert.All(lines[1..^1], line => Assert.Equal(header.Length, Fields(line).Count));
        var first = header.Zip(Fields(lines[1])).ToDictionary();
        Assert.Equal(("1", "plan"), (first["rank"], first["plan"]));
        // The seconds that the tenths of the answer come to.
        var starts = lines[1..^1].Select(line => Fields(line)[Array.IndexOf(header, "startUtc")]).Where(start => start.Length > 0).ToHashSet();
        var windows = days.EnumerateArray().SelectMany(day => day.GetProperty("windows").EnumerateArray().Select(window => window.GetProperty("start").GetDateTimeOffset()));
        Assert.Subset(windows.Select(start => start.AddSeconds(0.5).ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", System.Globalization.CultureInfo.InvariantCulture)).ToHashSet(), starts);
        Assert.NotEmpty(starts);
        Assert.StartsWith($"{first["date"]}T", first["startLocal"], StringComparison.Ordinal);
        Assert.EndsWith(".", first["reasons"], StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_picture_has_its_months_hours_clock_changes_and_windows()
    {
        var file = Path.Combine(valley.Folder, "season.svg");
        Assert.Equal(0, (await Outcome.Of("season", "--plan", valley.Plan, "--from", "2026-03-15", "--to", "2026-04-10", "--picture", file)).Exit);
        XNamespace svg = "http://www.w3.org/2000/svg";
        var picture = XDocument.Load(file).Root!;
        Assert.Equal(svg + "svg", picture.Name);
        var texts = picture.Descendants(svg + "text").Select(text => text.Value).ToList();
        // Clocks in Zurich went forward on 29 March 2026.
        foreach (var said in (string[])["Mar 2026", "Apr 2026", "06", "18", "clocks change", "1", "plan: bearings 260°..280°, hours of Europe/Zurich"]) Assert.Contains(said, texts);
        // One rectangle a day; the first path of this colour is theirs, the second the legend's.
        var windows = picture.Descendants(svg + "path").First(path => path.Attribute("fill")!.Value == "#f0b73d");
        Assert.Equal(27, windows.Attribute("d")!.Value.Count(letter => letter == 'M'));
    }

    [Fact]
    public async Task The_picture_can_be_had_as_pixels()
    {
        var file = Path.Combine(valley.Folder, "season.png");
        Assert.Equal(0, (await Outcome.Of("season", "--plan", valley.Plan, "--from", "2026-03-15", "--to", "2026-03-20", "--picture", file)).Exit);
        // The signature of PNG (ISO/IEC 15948, 5.2).
        Assert.Equal([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a], (await File.ReadAllBytesAsync(file, TestContext.Current.CancellationToken))[..8]);
    }

    [Fact]
    public async Task A_season_can_be_stopped_while_it_is_worked_out()
    {
        using var stop = new CancellationTokenSource();
        using var output = new StringWriter();
        using var error = new StoppingWriter(stop);
        var exit = await CommandLine.RunAsync(
            ["season", "--plan", valley.Plan, "--from", "2026-01-01", "--to", "2030-12-31"], new Terminal(output, error) { ErrorIsScreen = true }, stop.Token);
        Assert.Equal(130, exit);
        Assert.Empty(output.ToString());
        Assert.Contains("working out the season: ", error.Said, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--weekdays", "sat,someday")]
    [InlineData("--half", "noon")]
    [InlineData("--hours", "06:00")]
    [InlineData("--hours", "10:00..06:00")]
    [InlineData("--span", "260")]
    [InlineData("--csv", "nowhere/season.csv")]
    [InlineData("--picture", "season.doc")]
    public async Task What_cannot_be_understood_is_refused(string option, string value) => Assert.Equal(
        [option], (await Outcome.Of("season", "--plan", valley.Plan, "--from", "2026-03-15", "--to", "2026-03-16", option, value)).Faults);

    [Theory]
    [InlineData("2026-03-15", "2026-03-14", "--to")]
    [InlineData("2026-03-15", "2032-01-01", "--to")]
    [InlineData("1949-03-15", "2026-03-14", "--from")]
    [InlineData("2026-02-30", "2026-03-14", "--from")]
    public async Task A_range_that_is_none_is_refused(string from, string to, string blamed) =>
        Assert.Contains(blamed, (await Outcome.Of("season", "--plan", valley.Plan, "--from", from, "--to", to)).Faults);

    private static IEnumerable<string?> Names(System.Text.Json.JsonElement list, string field) => list.EnumerateArray().Select(entry => entry.GetProperty(field).GetString());

    /// <summary>The fields of a line that has quotes around some of them.</summary>
    private static List<string> Fields(string line)
    {
        var (fields, isQuoted) = (new List<string> { "" }, false);
        foreach (var letter in line)
        {
            if (letter == '"') isQuoted = !isQuoted;
            else if (letter == ',' && !isQuoted) fields.Add("");
            else fields[^1] += letter;
        }
        return fields;
    }

    /// <summary>Stops the work at its first word of progress.</summary>
    private sealed class StoppingWriter(CancellationTokenSource stop) : TextWriter
    {
        private readonly StringBuilder said = new();

        public string Said => said.ToString();

        public override Encoding Encoding => Encoding.UTF8;

        public override void Write(string? value)
        {
            said.Append(value);
            if (value?.Contains('%') == true) stop.Cancel();
        }

        public override Task WriteLineAsync(string? value)
        {
            said.AppendLine(value);
            return Task.CompletedTask;
        }
    }
}
