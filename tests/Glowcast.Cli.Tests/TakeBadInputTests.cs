using System.Diagnostics;
using System.Text.Json;
using Glowcast.Cli.Takes;

namespace Glowcast.Cli.Tests;

public sealed class TakeBadInputTests : IDisposable
{
    private readonly MadeTake take = new();

    [Fact]
    public async Task What_is_no_file_is_named_and_never_waited_for()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "named pipes are made with mkfifo");
        using (var made = Process.Start("mkfifo", [take.Frame(40), Path.Combine(take.Originals, "IMG_0003.dng")])) await made.WaitForExitAsync(TestContext.Current.CancellationToken);
        File.WriteAllBytes(take.Frame(41), []);
        Directory.CreateDirectory(take.Frame(42));
        File.CreateSymbolicLink(take.Frame(43), take.Beside("nowhere.jpg"));
        var answer = (await Sorted("--sort-into", take.Beside("sorted"))).Json;
        Assert.Equal([MadeTake.Name(40), MadeTake.Name(41)], answer.GetProperty("skipped").EnumerateArray().Select(skipped => Text(skipped, "file")));
        Assert.All(answer.GetProperty("sets").EnumerateArray(), set => Assert.Equal("whole", Text(set, "wholeness")));
    }

    [Fact]
    public void What_cannot_be_opened_is_named_and_the_others_are_read()
    {
        // A folder and a file that is gone cannot be opened by anyone, not even by root.
        var files = new[] { new TakeFile("folder.jpg", [take.Originals]), new TakeFile("gone.jpg", [take.Beside("gone.jpg")]), new TakeFile("a.jpg", [take.Frame(2)]) };
        var reading = TakeReading.Of(files, new Progress<double>(), TestContext.Current.CancellationToken);
        Assert.Equal("a.jpg", Assert.Single(reading.Frames).Name);
        Assert.Equal(["folder.jpg", "gone.jpg"], reading.Skipped.Select(fault => fault.Field));
        Assert.Equal(["Cannot be read: this user has no right to it.", "Cannot be read: nothing is there, or nothing can be made there."], reading.Skipped.Select(fault => fault.Message));
    }

    [Fact]
    public async Task Folders_that_link_to_one_another_are_no_loop()
    {
        var (a, b) = (Directory.CreateDirectory(Path.Combine(take.Originals, "a")).FullName, Directory.CreateDirectory(Path.Combine(take.Originals, "b")).FullName);
        Directory.CreateSymbolicLink(Path.Combine(a, "to-b"), b);
        Directory.CreateSymbolicLink(Path.Combine(b, "to-a"), a);
        Directory.CreateSymbolicLink(Path.Combine(take.Originals, "up"), take.Folder);
        Assert.Equal(2, (await Sorted()).Json.GetProperty("sets").GetArrayLength());
    }

    [Theory]
    [InlineData("--lists")]
    [InlineData("--sort-into")]
    [InlineData("--sheet")]
    public async Task Where_nothing_can_be_made_is_told_in_our_words(string option)
    {
        Assert.SkipUnless(Directory.Exists("/proc"), "needs Linux, where nobody can make files in /proc");
        var outcome = await Sorted(option, "/proc/glowcast");
        Assert.Equal([option], outcome.Faults);
        Assert.Contains("nothing can be made there", outcome.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Could not find", outcome.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--lists")]
    [InlineData("--sort-into")]
    public async Task A_file_where_a_folder_is_asked_for_is_told_in_our_words(string option)
    {
        var outcome = await Sorted(option, take.Plan);
        Assert.Equal([option], outcome.Faults);
        Assert.Contains("Is a file; name a folder", outcome.Error, StringComparison.Ordinal);
        var below = await Sorted(option, Path.Combine(take.Plan, "deep"));
        Assert.Equal([option], below.Faults);
        Assert.Contains("which is a file and no folder", below.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_folder_where_a_file_is_asked_for_is_told_too() => Assert.Equal(["--sheet"], (await Sorted("--sheet", take.Folder)).Faults);

    [Fact]
    public async Task A_clock_that_goes_backwards_is_told_and_the_names_give_the_order()
    {
        for (var number = 11; number <= 20; number++) take.Write(MadeTake.Name(number), -300 + (number == 11 ? 0 : 2.5 + ((number - 12) * 4.02)), looksAt: number == 11 ? null : (number - 12) * 0.6);
        var answer = (await Sorted()).Json;
        Assert.Equal([MadeTake.Name(2), MadeTake.Name(12)], answer.GetProperty("sets").EnumerateArray().Select(set => Text(set, "first")));
        Assert.Contains(answer.GetProperty("cautions").EnumerateArray(), caution => caution.GetString()!.Contains($"goes backwards at {MadeTake.Name(11)}", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_take_of_another_day_than_the_plan_is_told()
    {
        using var valley = new MadeValley();
        var plan = valley.Write("other-day.json", MadeValley.PlanWith(("set", System.Text.Json.Nodes.JsonNode.Parse("""{ "columns": 7, "rows": 1, "spareFrames": 1, "repeats": 1 }"""))).ToJsonString());
        var answer = (await Outcome.Of("take", take.Originals, "--plan", plan, "--compare", "--json")).Json;
        Assert.Contains(answer.GetProperty("cautions").EnumerateArray(), caution => caution.GetString()!.StartsWith("No set of the take was shot on 2026-03-20, the day of the forecast; the first was on 2026-02-14.", StringComparison.Ordinal));
        var onDay = valley.Write("that-day.json", MadeValley.PlanWith(("date", "2026-02-14"), ("set", System.Text.Json.Nodes.JsonNode.Parse("""{ "columns": 7, "rows": 1, "spareFrames": 1, "repeats": 1 }"""))).ToJsonString());
        Assert.Empty((await Outcome.Of("take", take.Originals, "--plan", onDay, "--compare", "--json")).Json.GetProperty("cautions").EnumerateArray());
    }

    [Fact]
    public async Task Frames_without_any_time_cannot_be_compared_and_the_clock_is_not_blamed_for_it()
    {
        using var valley = new MadeValley();
        for (var number = 1; number <= 20; number++) take.Write(MadeTake.Name(number), 0, hasTime: false);
        var outcome = await Outcome.Of("take", take.Originals, "--plan", valley.Write("plan.json", MadeValley.PlanWith().ToJsonString()), "--compare");
        Assert.Equal(["--compare"], outcome.Faults);
        Assert.Contains("say when they were shot", outcome.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("--time-zone", outcome.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_take_without_a_set_says_that_there_is_none_to_compare()
    {
        using var valley = new MadeValley();
        for (var number = 2; number <= 20; number++) take.Write(MadeTake.Name(number), 0, hasTime: false);
        var outcome = await Outcome.Of("take", take.Originals, "--plan", valley.Write("plan.json", MadeValley.PlanWith().ToJsonString()), "--compare");
        Assert.Contains("There is no set to compare.", outcome.Lines);
    }

    public void Dispose() => take.Dispose();

    private Task<Outcome> Sorted(params string[] options) => Outcome.Of(["take", take.Originals, "--plan", take.Plan, "--json", .. options]);

    private static string Text(JsonElement element, string name) => element.GetProperty(name).GetString()!;
}
