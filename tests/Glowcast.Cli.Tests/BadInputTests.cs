namespace Glowcast.Cli.Tests;

/// <summary>Bad input names every fault, field by field, and never shows a stack trace (see <see cref="Outcome.Faults"/>).</summary>
public class BadInputTests(MadeValley valley) : IClassFixture<MadeValley>
{
    [Theory]
    [InlineData("91", "7.7", "90", "--latitude")]
    [InlineData("NaN", "7.7", "90", "--latitude")]
    [InlineData("north", "7.7", "90", "--latitude")]
    [InlineData("46.1", "180.1", "90", "--longitude")]
    [InlineData("46.1", "Infinity", "90", "--longitude")]
    [InlineData("46.1", "7,7", "90", "--longitude")]
    [InlineData("46.1", "7.7", "NaN", "--azimuth")]
    [InlineData("46.1", "7.7", "west", "--azimuth")]
    [InlineData("46.1", "7.7", "", "--azimuth")]
    public async Task Numbers_that_are_none_or_out_of_range_are_named(string latitude, string longitude, string azimuth, string field)
    {
        var outcome = await Outcome.Of("horizon", "--grid", valley.Grid, "--latitude", latitude, "--longitude", longitude, "--azimuth", azimuth);

        Assert.Equal([field], outcome.Faults);
    }

    [Fact]
    public async Task What_is_far_too_long_is_not_said_back_in_full()
    {
        var far = new string('9', 5000) + "x";
        foreach (var line in (string[][])
            [["sun", "--date", far, "--latitude", far, "--longitude", "7", "--time-zone", far], ["skyline", "--grid", valley.Grid, "--latitude", "46.1", "--longitude", "7.7", "--span", far],
                ["sight", "--grid", valley.Grid, "--from", far, "--to", far], ["season", "--plan", valley.Plan, "--from", far, "--to", far, "--weekdays", far, "--half", far], ["sun", $"--{far}"]])
        {
            var outcome = await Outcome.Of(line);
            Assert.NotEmpty(outcome.Faults);
            Assert.Contains($"{far[..70]}", outcome.Error, StringComparison.Ordinal);
            Assert.All(outcome.Error.Split(Environment.NewLine), said => Assert.True(said.Length < 400, said));
        }
    }

    [Theory]
    [InlineData("card", "--out", "/proc/card.html")]
    [InlineData("season", "--csv", "/proc/season.csv")]
    public async Task A_file_that_cannot_be_made_is_told_in_our_words(string command, string option, string path)
    {
        Assert.SkipUnless(Directory.Exists("/proc"), "needs Linux, where nobody can make files in /proc");
        string[] days = command == "season" ? ["--from", "2026-03-20", "--to", "2026-03-20"] : [];
        var outcome = await Outcome.Of([command, "--plan", valley.Plan, option, path, .. days]);
        Assert.Equal([option], outcome.Faults);
        Assert.Contains("nothing can be made there", outcome.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Could not find", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task All_faults_of_a_line_are_said_at_once()
    {
        var outcome = await Outcome.Of(
            "skyline", "--grid", "nowhere.hgt", "--latitude", "91", "--span", "245..245", "--step", "0", "--eye", "x", "--refraction-k", "NaN");

        Assert.Equal(["--eye", "--grid nowhere.hgt", "--latitude", "--longitude", "--refraction-k", "--span", "--step"], outcome.Faults.Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("245..245")]
    [InlineData("0..360")]
    [InlineData("245")]
    [InlineData("245-330")]
    [InlineData("a..b")]
    [InlineData("245...330")]
    public async Task Spans_of_zero_and_what_is_no_span_are_refused(string span)
    {
        var outcome = await Outcome.Of("skyline", "--grid", valley.Grid, "--latitude", "46.1", "--longitude", "7.7", "--span", span);

        Assert.Equal(["--span"], outcome.Faults);
    }

    [Theory]
    [InlineData("91,7", "--to (latitude)")]
    [InlineData("46,181", "--to (longitude)")]
    [InlineData("46,x", "--to (longitude)")]
    [InlineData("46", "--to")]
    [InlineData("46.1,7.6,3", "--to")]
    [InlineData("47,7.6", "--to")]
    public async Task Points_that_are_none_or_off_the_grid_are_named(string to, string field)
    {
        var outcome = await Outcome.Of("sight", "--grid", valley.Grid, "--from", MadeValley.Lookout, "--to", to);

        Assert.Equal([field], outcome.Faults);
    }

    [Fact]
    public async Task Nobody_looks_at_the_point_they_stand_on()
    {
        var outcome = await Outcome.Of("sight", "--grid", valley.Grid, "--from", MadeValley.Lookout, "--to", MadeValley.Lookout);

        Assert.Equal(["--to"], outcome.Faults);
    }

    [Theory]
    [InlineData("2003-10-17T12:30:30", "Z")]
    [InlineData("2003-10-17", "instant")]
    [InlineData("2003-13-17T12:30:30Z", "instant")]
    [InlineData("1949-12-31T23:59:59Z", "1950")]
    [InlineData("2101-01-01T00:00:00Z", "2100")]
    public async Task Instants_must_be_whole(string at, string right)
    {
        var outcome = await Outcome.Of("sun", "--at", at, "--latitude", "46", "--longitude", "7");

        Assert.Equal(["--at"], outcome.Faults);
        Assert.Contains(right, outcome.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("1949-12-31", "UTC", "--date")]
    [InlineData("2101-01-01", "UTC", "--date")]
    [InlineData("14.02.2026", "UTC", "--date")]
    [InlineData("2026-02-30", "UTC", "--date")]
    [InlineData("2026-02-14", "Mars/Olympus", "--time-zone")]
    public async Task Dates_and_time_zones_must_be_known(string date, string zone, string field)
    {
        var outcome = await Outcome.Of("sun", "--date", date, "--time-zone", zone, "--latitude", "46", "--longitude", "7");

        Assert.Equal([field], outcome.Faults);
    }

    [Fact]
    public async Task A_question_is_for_an_instant_or_for_a_day()
    {
        string[] place = ["--latitude", "46", "--longitude", "7"];

        Assert.Equal(["--at"], (await Outcome.Of(["sun", .. place])).Faults);
        Assert.Equal(["--at"], (await Outcome.Of(["sun", "--at", "2026-02-14T12:00Z", "--date", "2026-02-14", .. place])).Faults);
        Assert.Equal(["--delta-t"], (await Outcome.Of(["sun", "--date", "2026-02-14", "--delta-t", "70", .. place])).Faults);
    }

    [Theory]
    [InlineData("N46E007.hgt", "short", "N46E007.hgt: Has 5 bytes")]
    [InlineData("mountain.hgt", "x", "N46E007.hgt")]
    [InlineData("ground.flt", "x", "no elevation format")]
    [InlineData("ground.tif", "x", "TIFF")]
    [InlineData("short.asc", "ncols 2\nnrows 2\nxllcorner 7\nyllcorner 46\ncellsize 1\n1 2 3\n", "cut off")]
    [InlineData("long.asc", "ncols 2\nnrows 2\nxllcorner 7\nyllcorner 46\ncellsize 1\n1 2 3 4 5\n", "more heights")]
    [InlineData("words.asc", "ncols 2\nnrows 2\nxllcorner 7\nyllcorner 46\ncellsize 1\n1 2 three 4\n", "three")]
    [InlineData("nan.asc", "ncols 2\nnrows 2\nxllcorner 7\nyllcorner 46\ncellsize 1\n1 2 NaN 4\n", "NaN")]
    [InlineData("flat.asc", "ncols 2\nnrows 2\nxllcorner 7\nyllcorner 46\ncellsize 0\n1 2 3 4\n", "latitudeStepDeg")]
    public async Task Grids_that_are_not_what_they_say_are_named(string name, string content, string said)
    {
        var path = valley.Write(name, content);

        var outcome = await Outcome.Of("grid", "info", path);

        Assert.All(outcome.Faults, field => Assert.Equal($"file {path}", field));
        Assert.Contains(said, outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Grids_that_are_missing_or_folders_are_all_named()
    {
        var missing = Path.Combine(valley.Folder, "N47E007.hgt");

        Assert.Equal([$"file {missing}", $"file {valley.Folder}"], (await Outcome.Of("grid", "info", missing, valley.Grid, valley.Folder)).Faults);
        Assert.Equal(["file"], (await Outcome.Of("grid", "info")).Faults);
        Assert.Equal(["--grid"], (await Outcome.Of("light", "--target", "46,7", "--date", "2026-02-14")).Faults);
    }

    [Fact]
    public async Task Grids_that_disagree_cannot_be_joined()
    {
        var other = valley.Write("other.asc", "ncols 2\nnrows 2\nxllcenter 7.5\nyllcenter 46.0\ncellsize 0.1\n5000 5000\n5000 5000\n");

        var outcome = await Outcome.Of("horizon", "--grid", valley.Grid, other, "--latitude", "46.1", "--longitude", "7.7", "--azimuth", "90");

        Assert.Equal(["--grid"], outcome.Faults);
    }

    [Theory]
    [InlineData("lookout.latitudeDeg", "91", "lookout.latitudeDeg")]
    [InlineData("lookout.timeZone", "\"Mars/Olympus\"", "lookout.timeZone")]
    [InlineData("lookout.latitudeDeg", "47.5", "lookout")]
    [InlineData("date", "\"1949-06-01\"", "date")]
    [InlineData("span.toDeg", "260", "span.toDeg")]
    [InlineData("camera.pixelsWide", "0", "camera.pixelsWide")]
    [InlineData("lens.focalLengthMm", "\"long\"", "lens.focalLengthMm")]
    [InlineData("lens.focalLengthMm", "3", "set")]
    public async Task A_plan_with_one_fault_names_its_field(string path, string value, string field)
    {
        var plan = valley.Write("faulty.json", MadeValley.PlanWith((path, System.Text.Json.Nodes.JsonNode.Parse(value))).ToJsonString());

        Assert.Equal([field], (await Outcome.Of("forecast", "--plan", plan)).Faults);
    }

    [Fact]
    public async Task A_plan_with_many_faults_names_them_all_with_those_of_its_grids_and_of_the_line()
    {
        var missing = Path.Combine(valley.Folder, "gone.hgt");
        var plan = valley.Write("faults.json", MadeValley.PlanWith(
            ("lookout.latitudeDeg", -91), ("date", "soon"), ("camera.pixelsHigh", 0), ("grids", new System.Text.Json.Nodes.JsonArray("gone.hgt"))).ToJsonString());

        var outcome = await Outcome.Of("forecast", "--plan", plan, "--beyond", "sea");

        Assert.Equal(["lookout.latitudeDeg", "date", "camera.pixelsHigh", $"grids {missing}", "--beyond"], outcome.Faults);
    }

    [Fact]
    public async Task Plans_that_are_no_plans_are_refused()
    {
        var missing = Path.Combine(valley.Folder, "gone.json");

        Assert.Equal([$"--plan {missing}"], (await Outcome.Of("set", "--plan", missing)).Faults);
        Assert.Equal([$"--plan {valley.Folder}"], (await Outcome.Of("set", "--plan", valley.Folder)).Faults);
        Assert.Equal(["plan"], (await Outcome.Of("set", "--plan", valley.Write("half.json", "{ \"span\": "))).Faults);
        Assert.Equal(["plan"], (await Outcome.Of("forecast", "--date", "2026-02-14", "--plan", valley.Write("list.json", "[1, 2]"))).Faults);
        Assert.Equal([$"--plan {valley.Folder}/big.json"], (await Outcome.Of("set", "--plan", valley.Write("big.json", new string(' ', 1_000_001)))).Faults);
        Assert.Equal(["--plan"], (await Outcome.Of("forecast")).Faults);
    }

    [Fact]
    public async Task Light_is_asked_for_a_point_or_a_plan()
    {
        Assert.Equal(["--target"], (await Outcome.Of("light")).Faults);
        Assert.Equal(["--target"], (await Outcome.Of("light", "--target", MadeValley.Crest, "--plan", valley.Plan)).Faults);
        Assert.Equal(["--time-zone"], (await Outcome.Of("light", "--time-zone", "UTC", "--plan", valley.Plan)).Faults);
    }

    [Theory]
    [InlineData("moon", "moon")]
    [InlineData("moon --at now", "moon")]
    [InlineData("sun moon", "moon")]
    [InlineData("sun --latitud 46 --longitude 7", "--latitud")]
    [InlineData("grid show", "show")]
    [InlineData("--loud", "--loud")]
    public async Task Unknown_words_are_named(string line, string field)
    {
        var outcome = await Outcome.Of(line.Split(' '));

        Assert.Equal([field], outcome.Faults);
        Assert.Contains("glowcast", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Options_have_one_value()
    {
        var outcome = await Outcome.Of("sun", "--at", "2026-02-14T12:00Z", "--latitude", "46", "--latitude", "47", "--longitude");

        Assert.Equal(["--latitude", "--longitude"], outcome.Faults);
    }
}
