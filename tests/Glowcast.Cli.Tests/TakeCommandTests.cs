using System.Security.Cryptography;
using System.Text.Json;

namespace Glowcast.Cli.Tests;

public sealed class TakeCommandTests : IDisposable
{
    private readonly MadeTake take = new();

    [Fact]
    public async Task Both_sets_are_found_and_are_whole()
    {
        var answer = (await Sorted()).Json;
        var sets = answer.GetProperty("sets").EnumerateArray().ToList();
        Assert.Equal(2, sets.Count);
        Assert.Equal((MadeTake.Name(2), MadeTake.Name(10)), (Text(sets[0], "first"), Text(sets[0], "last")));
        Assert.Equal((MadeTake.Name(12), MadeTake.Name(20)), (Text(sets[1], "first"), Text(sets[1], "last")));
        Assert.All(sets, set =>
        {
            Assert.Equal("whole", Text(set, "wholeness"));
            Assert.Equal((1, 9), (set.GetProperty("rows").GetInt32(), set.GetProperty("frames").GetInt32()));
            Assert.Equal((0, 0), (set.GetProperty("missing").GetArrayLength(), set.GetProperty("changed").GetArrayLength()));
            Assert.Equal(0, set.GetProperty("driftStops").GetDouble(), 0.15);
            Assert.InRange(set.GetProperty("confidence").GetDouble(), 0.9, 1);
            Assert.NotEmpty(set.GetProperty("reasons").EnumerateArray());
        });
        Assert.Equal(4.02 - 2 - 0.02 - 0.5, answer.GetProperty("ownTimes").GetProperty("rotateS").GetDouble(), 0.011);
    }

    [Fact]
    public async Task A_deleted_frame_is_missed_at_its_place()
    {
        File.Delete(take.Frame(5));
        var set = (await Sorted()).Json.GetProperty("sets")[0];
        Assert.Equal("notWhole", Text(set, "wholeness"));
        var missing = Assert.Single(set.GetProperty("missing").EnumerateArray());
        Assert.Equal((4, MadeTake.Name(4)), (missing.GetProperty("column").GetInt32(), Text(missing, "after")));
    }

    [Fact]
    public async Task Without_a_plan_no_set_is_called_whole()
    {
        var sets = (await Outcome.Of("take", take.Originals, "--json")).Json.GetProperty("sets").EnumerateArray().ToList();
        Assert.Equal(2, sets.Count);
        Assert.All(sets, set => Assert.Equal("uncertain", Text(set, "wholeness")));
    }

    [Theory]
    [InlineData("copy")]
    [InlineData("link")]
    public async Task Whatever_is_handed_over_the_originals_stay_as_they_are(string by)
    {
        var before = StateOf(take.Originals);
        var outcome = await Sorted("--sheet", take.Beside("sheet.html"), "--lists", take.Beside("lists"), "--sort-into", take.Beside("sorted"), "--by", by);
        Assert.True(outcome.Exit == 0, outcome.Error);
        Assert.Equal(before, StateOf(take.Originals));

        Assert.Equal(
            Enumerable.Range(12, 9).Select(MadeTake.Name),
            Directory.GetFiles(take.Beside("sorted/set-02")).Select(path => Path.GetFileName(path)!).Order(StringComparer.Ordinal));
        Assert.Equal(File.ReadAllBytes(take.Frame(12)), File.ReadAllBytes(take.Beside("sorted/set-02/IMG_0012.jpg")));
        Assert.Equal(Enumerable.Range(2, 9).Select(take.Frame), File.ReadAllLines(take.Beside("lists/set-01.txt")));
        Assert.Equal(21, File.ReadAllLines(take.Beside("lists/take.csv")).Length);
        Assert.Equal(2, JsonDocument.Parse(File.ReadAllText(take.Beside("lists/take.json"))).RootElement.GetProperty("sets").GetArrayLength());
        Assert.Contains(MadeTake.Name(20), File.ReadAllText(take.Beside("sheet.html")), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Nothing_is_written_over_and_nothing_among_the_originals()
    {
        await Sorted("--sort-into", take.Beside("sorted"));
        Assert.Equal(["--sort-into"], (await Sorted("--sort-into", take.Beside("sorted"))).Faults);
        Assert.Equal(["--lists", "--sheet"], (await Sorted("--lists", take.Originals, "--sheet", Path.Combine(take.Originals, "deep/sheet.html"))).Faults);
    }

    [Fact]
    public async Task A_link_that_leads_among_the_originals_is_followed_before_anything_is_written()
    {
        Directory.CreateDirectory(Path.Combine(take.Originals, "deep"));
        Directory.CreateSymbolicLink(take.Beside("elsewhere"), Path.Combine(take.Originals, "deep"));
        Directory.CreateSymbolicLink(take.Beside("round"), take.Beside("elsewhere"));
        var before = StateOf(take.Originals);
        Assert.Equal(
            ["--lists", "--sheet", "--sort-into"],
            (await Sorted("--lists", take.Beside("elsewhere/lists"), "--sheet", take.Beside("round/sheet.html"), "--sort-into", take.Beside("elsewhere"))).Faults.Order(StringComparer.Ordinal));
        Assert.Equal(before, StateOf(take.Originals));
    }

    [Fact]
    public async Task A_link_to_the_take_is_no_way_round_either()
    {
        Directory.CreateSymbolicLink(take.Beside("card-again"), take.Originals);
        Assert.Equal(["--lists"], (await Outcome.Of("take", take.Beside("card-again"), "--lists", Path.Combine(take.Originals, "lists"))).Faults);
    }

    [Fact]
    public async Task Pictures_that_are_not_read_are_named_and_a_heic_file_is_a_frame()
    {
        File.Move(take.Frame(3), Path.ChangeExtension(take.Frame(3), ".HEIC"));
        File.WriteAllBytes(Path.Combine(take.Originals, "map.png"), [1]);
        File.WriteAllBytes(Path.Combine(take.Originals, "IMG_0004.webp"), [1]);
        var answer = (await Sorted()).Json;
        Assert.Equal(9, answer.GetProperty("sets")[0].GetProperty("frames").GetInt32());
        var skipped = Assert.Single(answer.GetProperty("skipped").EnumerateArray());
        Assert.Equal("map.png", Text(skipped, "file"));
        Assert.Contains("PNG", Text(skipped, "reason"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Frames_of_one_instant_are_an_answer()
    {
        for (var number = 1; number <= 20; number++)
            if (number is not (1 or 11)) take.Write(MadeTake.Name(number), 0, looksAt: number * 0.6);
        var outcome = await Outcome.Of("take", take.Originals, "--plan", take.Plan, "--json");
        Assert.Equal(0, outcome.Exit);
        Assert.Equal(JsonValueKind.Object, outcome.Json.ValueKind);
        Assert.Equal(0, (await Outcome.Of("take", take.Originals, "--json")).Exit);
    }

    [Fact]
    public async Task A_border_moved_by_hand_is_remembered_beside_the_sheet()
    {
        File.WriteAllText(take.Beside("sheet.borders.json"), """{ "sets": [{ "first": "IMG_0003.jpg", "last": "IMG_0010.jpg" }], "loose": ["IMG_0004.jpg"] }""");
        var answer = (await Sorted("--sheet", take.Beside("sheet.html"))).Json;
        var set = answer.GetProperty("sets")[0];
        Assert.True(set.GetProperty("isByHand").GetBoolean());
        Assert.Equal((MadeTake.Name(3), 7), (Text(set, "first"), set.GetProperty("frames").GetInt32()));
        Assert.Equal("notWhole", Text(set, "wholeness"));
        Assert.Contains(MadeTake.Name(4), answer.GetProperty("loose").EnumerateArray().Select(loose => Text(loose, "file")));
        Assert.False(answer.GetProperty("sets")[1].GetProperty("isByHand").GetBoolean());
    }

    [Theory]
    [InlineData("""{ "sets": 3 }""")]
    [InlineData("""{ "sets": [], "loose": [], "more": 1 }""")]
    [InlineData("""{ "sets": [null], "loose": [] }""")]
    [InlineData("""{ "sets": [], "loose": [null] }""")]
    [InlineData("")]
    [InlineData("not JSON")]
    public async Task A_file_that_holds_no_borders_is_refused_in_no_words_of_the_code(string text)
    {
        File.WriteAllText(take.Beside("borders.json"), text);
        var refused = await Sorted("--borders", take.Beside("borders.json"));
        Assert.Equal(["--borders"], refused.Faults);
        Assert.DoesNotContain("isFinalBlock", refused.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Glowcast.Cli", refused.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--borders")]
    [InlineData("--lists")]
    [InlineData("--sheet")]
    [InlineData("--sort-into")]
    public async Task An_empty_name_is_no_place(string option) => Assert.Equal([option], (await Sorted(option, "")).Faults);

    [Fact]
    public async Task A_known_frame_sets_the_clock()
    {
        var answer = (await Sorted("--known-frame", MadeTake.Name(1), "--shot-at", "2026-02-14T11:45:30Z")).Json;
        Assert.Equal("knownFrame", Text(answer.GetProperty("clock"), "source"));
        Assert.Equal("2026-02-14T11:45:32.5Z", Text(answer.GetProperty("sets")[0], "start"));
    }

    [Fact]
    public async Task A_clock_that_is_ahead_is_set_back()
    {
        var answer = (await Sorted("--time-zone", "America/New_York", "--clock-error", "-30")).Json;
        Assert.Equal("2026-02-14T11:45:32.5Z", Text(answer.GetProperty("sets")[0], "start"));
        var ofNoUse = (await Sorted("--clock-error", "-30")).Json;
        Assert.Contains(ofNoUse.GetProperty("cautions").EnumerateArray(), caution => caution.GetString()!.Contains("how far that clock is from UTC", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Broken_files_are_named_and_skipped_and_those_without_a_time_are_left_out()
    {
        File.WriteAllText(take.Frame(30), "no picture");
        take.Write(MadeTake.Name(31), 0, hasTime: false);
        var answer = (await Sorted()).Json;
        Assert.Equal(MadeTake.Name(30), Text(Assert.Single(answer.GetProperty("skipped").EnumerateArray()), "file"));
        Assert.Equal(MadeTake.Name(31), Assert.Single(answer.GetProperty("withoutTime").EnumerateArray()).GetString());
        Assert.Equal(2, answer.GetProperty("sets").GetArrayLength());
    }

    [Fact]
    public async Task A_take_of_which_nothing_can_be_read_is_refused_and_says_why()
    {
        foreach (var file in Directory.GetFiles(take.Originals)) File.WriteAllText(file, "no picture");
        var outcome = await Sorted();
        Assert.Equal(2, outcome.Exit);
        Assert.Contains($"None of its 20 pictures can be read; the first, {MadeTake.Name(1)}:", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_take_without_any_times_is_an_answer_without_sets()
    {
        foreach (var file in Directory.GetFiles(take.Originals)) take.Write(Path.GetFileName(file), 0, hasTime: false);
        var answer = (await Sorted()).Json;
        Assert.Empty(answer.GetProperty("sets").EnumerateArray());
        Assert.Equal(20, answer.GetProperty("withoutTime").GetArrayLength());
    }

    [Fact]
    public async Task Links_are_not_followed()
    {
        Directory.CreateSymbolicLink(Path.Combine(take.Originals, "again"), take.Originals);
        File.CreateSymbolicLink(Path.Combine(take.Originals, "IMG_0099.jpg"), take.Frame(3));
        Assert.Equal(20, (await Sorted()).Json.GetProperty("sets").EnumerateArray().Sum(set => set.GetProperty("frames").GetInt32() + 1));
    }

    [Fact]
    public async Task A_jpeg_beside_a_raw_file_is_the_same_frame()
    {
        File.Copy(take.Frame(3), Path.ChangeExtension(take.Frame(3), ".dng"));
        var set = (await Sorted("--sort-into", take.Beside("sorted"))).Json.GetProperty("sets")[0];
        Assert.Equal(9, set.GetProperty("frames").GetInt32());
        Assert.True(File.Exists(take.Beside("sorted/set-01/IMG_0003.jpg")) && File.Exists(take.Beside("sorted/set-01/IMG_0003.dng")));
    }

    [Fact]
    public async Task A_folder_that_is_missing_or_empty_is_named()
    {
        Directory.CreateDirectory(take.Beside("empty"));
        Assert.Equal(["folder"], (await Outcome.Of("take", take.Beside("nowhere"))).Faults);
        Assert.Equal(["folder"], (await Outcome.Of("take", take.Beside("empty"))).Faults);
        Assert.Equal(["folder"], (await Outcome.Of("take")).Faults);
        Assert.Equal(["folder"], (await Outcome.Of("take", "", "--lists", take.Beside("lists"))).Faults);
    }

    [Theory]
    [InlineData("--by", "move", "--by")]
    [InlineData("--known-frame", "IMG_0001.jpg", "--known-frame")]
    [InlineData("--clock-error", "soon", "--clock-error")]
    public async Task What_is_wrong_is_named(string option, string value, string blamed) =>
        Assert.Equal([blamed], (await Sorted(option, value)).Faults);

    [Fact]
    public async Task The_page_says_the_same_and_fits()
    {
        var page = await Outcome.Of("take", take.Originals, "--plan", take.Plan);
        Assert.Contains("Whole.", page.Lines);
        Assert.All(page.Lines, line => Assert.True(line.Length <= 80, line));
    }

    public void Dispose() => take.Dispose();

    private Task<Outcome> Sorted(params string[] options) => Outcome.Of(["take", take.Originals, "--plan", take.Plan, "--json", .. options]);

    private static string Text(JsonElement element, string name) => element.GetProperty(name).GetString()!;

    private static string[] StateOf(string folder) =>
        [.. Directory.GetFiles(folder, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal).Select(path =>
            $"{path} {Convert.ToHexString(SHA256.HashData(File.ReadAllBytes(path)))} {File.GetLastWriteTimeUtc(path):O} {new FileInfo(path).Length}")];
}
