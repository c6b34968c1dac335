using System.Text.RegularExpressions;

namespace Glowcast.Cli.Tests;

/// <summary>Every command of the documents is run, on a small made valley or, where it names the real tile, on that.</summary>
public sealed partial class DocumentTests(MadeValley valley) : IClassFixture<MadeValley>, IDisposable
{
    private const string RealTile = "N44W072.hgt";
    private static readonly string Root = Checkout.Root;

    private readonly MadeTake take = new();

    public static IEnumerable<TheoryDataRow<string>> Made => Commands().Where(command => !command.Contains(RealTile, StringComparison.Ordinal)).Select(command => new TheoryDataRow<string>(command));

    public static IEnumerable<TheoryDataRow<string>> Real => Commands().Where(command => command.Contains(RealTile, StringComparison.Ordinal)).Select(command => new TheoryDataRow<string>(command));

    [Theory]
    [MemberData(nameof(Made))]
    public Task A_command_of_the_documents_answers(string command) => AnswersAsync(command);

    [Theory(SkipUnless = nameof(SharedData.HasTiles), SkipType = typeof(SharedData), Skip = SharedData.NoTiles)]
    [MemberData(nameof(Real))]
    public Task A_command_on_the_real_tile_answers(string command) => AnswersAsync(command);

    [Fact]
    public void The_documents_name_every_command_there_is()
    {
        var shown = Commands().Select(command => command.Split(' ')[0]).ToHashSet();
        Assert.Superset(new HashSet<string> { "forecast", "card", "season", "light", "set", "skyline", "grid", "take", "demo" }, shown);
    }

    public void Dispose() => take.Dispose();

    private async Task AnswersAsync(string command)
    {
        var words = command.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(InFolder).ToList();
        if (words[0] == "demo") words.Add("--no-serve");
        var outcome = await Outcome.Of([.. words]);
        Assert.True(outcome.Exit == 0, $"{command}: {outcome.Error}");
        Assert.NotEmpty(outcome.Out);
    }

    /// <summary>Files that the documents name lie in the folder of the tests.</summary>
    private string InFolder(string word) => word switch
    {
        RealTile => SharedData.Tile,
        "DCIM/100" => take.Originals,
        "lists" or "sorted" => take.Beside(word),
        _ when FileName().IsMatch(word) => Path.Combine(valley.Folder, word),
        _ => word,
    };

    /// <summary>What follows <c>glowcast</c>, or <c>dotnet run … --</c>, at the start of a line between fences.</summary>
    private static IEnumerable<string> Commands() =>
        from file in Directory.EnumerateFiles(Path.Combine(Root, "docs"), "*.md").Append(Path.Combine(Root, "README.md")).Append(Path.Combine(Root, "DEVELOPERS.md"))
        from Match fence in Fence().Matches(File.ReadAllText(file))
        from line in fence.Groups[1].Value.Split('\n')
        let command = Command().Match(line)
        where command.Success
        group line by command.Groups[1].Value.Trim() into alike
        select alike.Key;

    [GeneratedRegex("^```[a-z]*\n(.*?)^```", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex Fence();

    [GeneratedRegex("^(?:glowcast|dotnet run --project src/Glowcast.Cli --) ([^#]+)")]
    private static partial Regex Command();

    [GeneratedRegex("^[a-z]+\\.(json|html|ics|gpx|kml|geojson|csv|png|svg)$")]
    private static partial Regex FileName();
}
