using System.CommandLine;
using System.Text.RegularExpressions;

namespace Glowcast.Cli.Tests;

/// <summary>Every command of the documents is run, on a small made valley or, where it names the real tile, on that.</summary>
public sealed partial class DocumentTests(MadeValley valley) : IClassFixture<MadeValley>, IDisposable
{
    private const string RealTile = "N44W072.hgt";

    private readonly MadeTake take = new();

    public static IEnumerable<TheoryDataRow<string>> Made => Rows(command => !command.Contains(RealTile, StringComparison.Ordinal) && !IsOfService(command));

    public static IEnumerable<TheoryDataRow<string>> Real => Rows(command => command.Contains(RealTile, StringComparison.Ordinal));

    [Theory]
    [MemberData(nameof(Made))]
    public Task A_command_of_the_documents_answers(string command) => AnswersAsync(command);

    [TheoryNeeds<SharedTiles>]
    [MemberData(nameof(Real))]
    public Task A_command_on_the_real_tile_answers(string command) => AnswersAsync(command);

    /// <summary>The service is started and stopped, and what it kept written to a file and brought back.</summary>
    [Fact]
    public async Task The_commands_of_the_service_answer_one_after_the_other()
    {
        var commands = Commands().Where(IsOfService).OrderByDescending(command => command.StartsWith("serve", StringComparison.Ordinal)).ToList();
        foreach (var command in commands)
        {
            var words = Words(command);
            if (words[0] != "serve")
            {
                await AnswersAsync(command);
                continue;
            }
            await using var service = new RunningCommand([.. words.Select(word => word == "5127" ? "0" : word)]);
            await service.AddressAsync();
            Assert.Equal(0, await service.StopAsync());
        }
        Assert.Equal(["serve", "data backup", "data restore"], commands.Select(command => CommandOf(command)).Distinct());
    }

    [Fact]
    public void The_documents_show_every_command_there_is() => Assert.Empty(
        Leaves(Root(), "").Except(Commands().Select(CommandOf)));

    /// <summary>What is named in the middle of a sentence cannot be run, but its words must be the program's.</summary>
    [Fact]
    public void Commands_named_in_sentences_have_the_words_of_the_program()
    {
        var named = Documents().SelectMany(text => Inline().Matches(Fence().Replace(text, "")).Select(code => code.Groups[1].Value)).Distinct().ToList();
        Assert.True(named.Count > 2);
        Assert.All(named, command =>
        {
            var parsed = Root().Parse(command.Split(' '));
            Assert.True(parsed.UnmatchedTokens.Count == 0 && parsed.Errors.Count == 0, $"{command}: {string.Join(' ', parsed.UnmatchedTokens)}");
        });
    }

    public void Dispose() => take.Dispose();

    private async Task AnswersAsync(string command)
    {
        var words = Words(command);
        if (words is ["demo"]) words.Add("--no-serve");
        var outcome = await Outcome.Of([.. words]);
        Assert.True(outcome.Exit == 0, $"{command}: {outcome.Error}");
        Assert.NotEmpty(outcome.Out);
    }

    private static byte[] Reference(string path) =>
        File.ReadAllBytes(Path.Combine(Checkout.Root, "tests", "Glowcast.Engine.Tests", "Reference", "weather", path));

    private List<string> Words(string command) => [.. command.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(InFolder)];

    /// <summary>Files that the documents name lie in the folder of the tests.</summary>
    private string InFolder(string word) => word switch
    {
        RealTile => SharedTiles.Tile,
        "run.grib2" => valley.Write(word, [.. Reference("profiles/deck_hours_synthetic.grib2"), .. Reference("beam/slab_grid.grib2")]),
        "station.txt" => valley.Write(word, Reference("igra/ZZM00099001-data.txt.zip")),
        "sounding.txt" => valley.Write(word, CloudCommandTests.Fog),
        "DCIM/100" => take.Originals,
        "lists" or "sorted" => take.Beside(word),
        "glowcast-data" or "restored-data" => Path.Combine(valley.Folder, word),
        _ when FileName().IsMatch(word) => Path.Combine(valley.Folder, word),
        _ => word,
    };

    /// <summary>What follows <c>glowcast</c>, or <c>dotnet run … --</c>, at the start of a line between fences.</summary>
    private static IEnumerable<string> Commands() =>
        from text in Documents()
        from Match fence in Fence().Matches(text)
        from line in fence.Groups[1].Value.Split('\n')
        let command = Command().Match(line)
        where command.Success
        group line by command.Groups[1].Value.Trim() into alike
        select alike.Key;

    private static IEnumerable<string> Documents() => Directory.EnumerateFiles(Path.Combine(Checkout.Root, "docs"), "*.md")
        .Append(Path.Combine(Checkout.Root, "README.md")).Append(Path.Combine(Checkout.Root, "DEVELOPERS.md")).Select(File.ReadAllText);

    private static IEnumerable<TheoryDataRow<string>> Rows(Func<string, bool> isWanted) => Commands().Where(isWanted).Select(command => new TheoryDataRow<string>(command));

    private static bool IsOfService(string command) => command.StartsWith("serve", StringComparison.Ordinal) || command.StartsWith("data ", StringComparison.Ordinal);

    private static RootCommand Root() => CommandLine.RootOf(new Terminal(TextWriter.Null, TextWriter.Null));

    /// <summary>The words of a line that name its command.</summary>
    private static string CommandOf(string line) => Leaves(Root(), "").OrderByDescending(name => name.Length).First(name => $"{line} ".StartsWith($"{name} ", StringComparison.Ordinal));

    private static IEnumerable<string> Leaves(Command command, string before) => command.Subcommands.SelectMany(inner => inner.Subcommands.Count == 0
        ? [$"{before}{inner.Name}"]
        : Leaves(inner, $"{before}{inner.Name} "));

    [GeneratedRegex("^```[a-z]*\n(.*?)^```", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex Fence();

    [GeneratedRegex("^(?:glowcast|dotnet run --project src/Glowcast.Cli --) ([^#]+)")]
    private static partial Regex Command();

    [GeneratedRegex("`glowcast ([^`]+)`")]
    private static partial Regex Inline();

    [GeneratedRegex("^[a-z]+\\.(json|html|ics|gpx|kml|geojson|csv|png|svg|asc|zip)$")]
    private static partial Regex FileName();
}
