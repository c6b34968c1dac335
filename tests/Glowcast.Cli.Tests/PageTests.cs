using Glowcast.Cli.Showing;

namespace Glowcast.Cli.Tests;

/// <summary>What is written to be read.</summary>
public class PageTests(MadeValley valley) : IClassFixture<MadeValley>
{
    private const char Escape = '\u001b';

    public static TheoryData<string> Lines =>
    [
        "--help",
        "sun --help",
        "horizon --help",
        "sight --help",
        "skyline --help",
        "light --help",
        "set --help",
        "forecast --help",
        "card --help",
        "completion --help",
        "grid --help",
        "grid info --help",
        "serve --help",
        "demo --help",
        "sun --at 2026-02-14T06:45:00-05:00 --latitude 44.2592 --longitude -71.2025 --time-zone America/New_York",
        "sun --date 2026-02-14 --latitude 44.2592 --longitude -71.2025 --time-zone America/New_York",
        "sun --date 2026-06-21 --latitude 78 --longitude 15",
        "horizon --grid GRID --latitude 46.1 --longitude 7.7 --azimuth 90",
        "sight --grid GRID --from 46.1,7.7584 --to 46.1,7.55",
        "skyline --grid GRID --latitude 46.1 --longitude 7.7584 --span 350..10.5",
        "light --grid GRID --target 46.1,7.6034 --date 2026-03-20 --time-zone Europe/Zurich",
        "light --plan PLAN",
        "set --plan PLAN",
        "forecast --plan PLAN",
        "grid info GRID",
        "season --plan PLAN --from 2026-10-19 --to 2026-10-21",
        "sky --altitude 1 --height 2500",
        "season --help",
        "cloud --help",
        "take --help",
        "data --help",
        "data backup --help",
        "data restore --help",
    ];

    [Theory, MemberData(nameof(Lines))]
    public async Task Everything_to_be_read_fits_80_columns_without_colour(string line)
    {
        var outcome = await Outcome.Of(Words(line));

        Assert.Equal(0, outcome.Exit);
        Assert.Empty(outcome.Error);
        Assert.True(outcome.Lines.Length > 3);
        Assert.All(outcome.Lines, text => Assert.True(text.Length <= 80, text));
        Assert.DoesNotContain(Escape, outcome.Out);
    }

    [Fact]
    public async Task Nothing_is_parted_by_more_than_one_empty_line()
    {
        foreach (var line in (string[])["forecast --plan PLAN", "season --plan PLAN --from 2026-10-19 --to 2026-10-21"])
            Assert.DoesNotContain(string.Concat(Enumerable.Repeat(Environment.NewLine, 3)), (await Outcome.Of(Words(line))).Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Refusals_are_broken_between_words_on_a_screen_and_are_one_line_each_elsewhere()
    {
        string[] words = ["serve", "--frobnicate"];
        var file = await Outcome.Of(words);
        var screen = await Outcome.Of((output, error) => new Terminal(output, error) { ErrorIsScreen = true, ErrorWidth = 50 }, words);

        Assert.Single(file.Error.Split(Environment.NewLine, StringSplitOptions.RemoveEmptyEntries));
        var lines = screen.Error.Split(Environment.NewLine, StringSplitOptions.RemoveEmptyEntries);
        Assert.True(lines.Length > 1);
        Assert.All(lines, text => Assert.True(text.Length <= 50, text));
        Assert.Equal(file.Error.TrimEnd(), string.Join(' ', lines.Select(text => text.Trim())));
    }

    [Theory]
    [InlineData("", 40, "")]
    [InlineData("one two three", 8, "one two|  three")]
    [InlineData("one two three", 7, "one two|  three")]
    [InlineData("one two", 6, "one|  two")]
    [InlineData("a-word-wider-than-the-screen is kept", 12, "a-word-wider-than-the-screen|  is kept")]
    [InlineData("one\ntwo three", 8, "one|two|  three")]
    public void Lines_break_between_words(string text, int width, string lines) =>
        Assert.Equal(lines.Split('|'), Wrapped.To(text.Replace("\\n", "\n", StringComparison.Ordinal), width).Split(Environment.NewLine));

    [Fact]
    public async Task A_narrow_screen_gets_narrow_pages()
    {
        foreach (var line in (string[])["light --plan PLAN", "skyline --grid GRID --latitude 46.1 --longitude 7.7584 --span 260..280"])
        {
            var outcome = await Outcome.Of((output, error) => new Terminal(output, error) { OutIsScreen = true, Width = 60 }, Words(line));

            Assert.Equal(0, outcome.Exit);
            Assert.All(outcome.Lines, text => Assert.True(text.Length <= 60, text));
        }
    }

    [Fact]
    public async Task Colour_is_for_screens_that_want_it_and_changes_no_word()
    {
        var plain = await Outcome.Of(Words("sight --grid GRID --from 46.1,7.7584 --to 46.1,7.55"));
        var coloured = await Outcome.Of(
            (output, error) => new Terminal(output, error) { OutIsScreen = true, HasColour = true }, Words("sight --grid GRID --from 46.1,7.7584 --to 46.1,7.55"));

        Assert.Contains(Escape, coloured.Out);
        Assert.Equal(plain.Out, System.Text.RegularExpressions.Regex.Replace(coloured.Out, @"\u001b\[[0-9;]*m", ""));
    }

    [Fact]
    public async Task A_skyline_is_drawn_with_blocks_on_a_screen_and_with_plain_characters_elsewhere()
    {
        var words = Words("skyline --grid GRID --latitude 46.1 --longitude 7.7584 --span 260..280");

        var file = await Outcome.Of(words);
        var screen = await Outcome.Of((output, error) => new Terminal(output, error) { OutIsScreen = true }, words);
        var asked = await Outcome.Of((output, error) => new Terminal(output, error) { OutIsScreen = true }, [.. words, "--ascii"]);

        Assert.Contains("####", file.Out, StringComparison.Ordinal);
        Assert.DoesNotContain('█', file.Out);
        Assert.Contains("████", screen.Out, StringComparison.Ordinal);
        Assert.Contains("####", asked.Out, StringComparison.Ordinal);
        Assert.DoesNotContain('█', asked.Out);
    }

    [Fact]
    public async Task A_light_chart_has_shade_before_the_window_and_a_lit_valley_after_it()
    {
        var outcome = await Outcome.Of(Words("light --plan PLAN"));

        var chart = outcome.Lines.Where(line => System.Text.RegularExpressions.Regex.IsMatch(line, @"^\d\d:\d\d  \d\d:\d\d ")).Select(line => line[13..].Trim()).ToList();
        var first = chart.FindIndex(line => line.StartsWith('>'));
        var last = chart.FindLastIndex(line => line.StartsWith('>'));
        Assert.True(first > 0 && last >= first && last < chart.Count - 1);
        Assert.Matches(@"^\.+$", chart[0]);
        Assert.Matches("^> #+$", chart[last]);
        Assert.Contains('v', chart[last + 1]);
    }

    [Fact]
    public async Task Progress_is_shown_on_a_screen_and_wiped_away()
    {
        var words = Words("forecast --plan PLAN --json");

        var watched = await Outcome.Of((output, error) => new Terminal(output, error) { ErrorIsScreen = true }, words);

        Assert.Contains("working out the light: ", watched.Error, StringComparison.Ordinal);
        Assert.EndsWith(" \r", watched.Error, StringComparison.Ordinal);
        Assert.NotEmpty(watched.Json.GetProperty("windows").EnumerateArray());
    }

    [Fact]
    public async Task Help_gives_an_example_for_every_command()
    {
        foreach (var command in (string[])["sun", "sky", "horizon", "sight", "skyline", "light", "set", "forecast", "card", "season", "cloud", "take", "grid info", "serve", "data backup", "data restore", "demo"])
        {
            var help = await Outcome.Of([.. command.Split(' '), "--help"]);

            Assert.Contains($"Example:{Environment.NewLine}glowcast {command}", help.Out, StringComparison.Ordinal);
            Assert.Contains("--json", help.Out, StringComparison.Ordinal);
        }
        foreach (var command in (string[])["", "grid", "data"])
            Assert.Contains($"glowcast {command}", (await Outcome.Of([.. command.Split(' ', StringSplitOptions.RemoveEmptyEntries), "--help"])).Out.Split("Example")[1], StringComparison.Ordinal);
    }

    private string[] Words(string line) => [.. line.Split(' ').Select(word => word switch
    {
        "GRID" => valley.Grid,
        "PLAN" => valley.Plan,
        _ => word,
    })];
}
