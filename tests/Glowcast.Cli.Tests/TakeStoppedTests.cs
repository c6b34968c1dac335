using System.Text;
using Glowcast.Cli.Takes;

namespace Glowcast.Cli.Tests;

/// <summary>The command is stopped, as by Ctrl-C, at a moment that its own line of progress tells.</summary>
public sealed class TakeStoppedTests : IDisposable
{
    private readonly MadeTake take = new();

    [Theory]
    [InlineData("reading the frames: 5")]
    [InlineData("handing over: 5")]
    public async Task Stopped_in_the_middle_it_says_so_and_leaves_nothing_half_done(string at)
    {
        var before = Directory.GetFileSystemEntries(take.Folder).Order(StringComparer.Ordinal).ToList();
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        using var output = new StringWriter();
        using var error = new StopsAt(at, stop);
        var exit = await CommandLine.RunAsync(
            ["take", take.Originals, "--plan", take.Plan, "--json", "--sort-into", take.Beside("sorted")], new Terminal(output, error) { ErrorIsScreen = true }, stop.Token);
        Assert.Equal(CommandLine.Stopped, exit);
        Assert.Empty(output.ToString());
        Assert.EndsWith($"Stopped.{Environment.NewLine}", error.ToString(), StringComparison.Ordinal);
        Assert.Equal(before, Directory.GetFileSystemEntries(take.Folder).Order(StringComparer.Ordinal));
        Assert.Equal(20, Directory.GetFiles(take.Originals).Length);
    }

    [Fact]
    public async Task A_sheet_that_is_stopped_leaves_the_one_before_it()
    {
        File.WriteAllText(take.Beside("sheet.html"), "the one before");
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        using var output = new StringWriter();
        using var error = new StopsAt("handing over: 5", stop);
        var exit = await CommandLine.RunAsync(
            ["take", take.Originals, "--plan", take.Plan, "--sheet", take.Beside("sheet.html")], new Terminal(output, error) { ErrorIsScreen = true }, stop.Token);
        Assert.Equal(CommandLine.Stopped, exit);
        Assert.Equal("the one before", File.ReadAllText(take.Beside("sheet.html")));
        Assert.Equal(["sheet.html"], Directory.GetFiles(take.Folder, "sheet*").Select(Path.GetFileName));
    }

    [Fact]
    public void A_copy_has_its_name_only_when_it_is_whole()
    {
        var to = take.Beside("copy.jpg");
        WholeFile.Copy(take.Frame(2), to);
        Assert.Equal(File.ReadAllBytes(take.Frame(2)), File.ReadAllBytes(to));
        Assert.Throws<IOException>(() => WholeFile.Copy(take.Frame(3), to));
        Assert.Equal(File.ReadAllBytes(take.Frame(2)), File.ReadAllBytes(to));
        Assert.ThrowsAny<IOException>(() => WholeFile.Copy(take.Frame(99), take.Beside("none.jpg")));
        Assert.Equal(["card", "copy.jpg", "plan.json"], Directory.GetFileSystemEntries(take.Folder).Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void What_another_wrote_under_the_name_of_a_half_copy_stays()
    {
        File.WriteAllText(take.Beside("copy.jpg.part"), "of another");
        Assert.Throws<IOException>(() => WholeFile.Copy(take.Frame(2), take.Beside("copy.jpg")));
        Assert.Equal("of another", File.ReadAllText(take.Beside("copy.jpg.part")));
    }

    public void Dispose() => take.Dispose();

    private sealed class StopsAt(string text, CancellationTokenSource stop) : StringWriter
    {
        public override Encoding Encoding => Encoding.UTF8;

        public override void Write(string? value)
        {
            base.Write(value);
            if (value?.Contains(text, StringComparison.Ordinal) == true) stop.Cancel();
        }
    }
}
