using System.Text.RegularExpressions;

namespace Glowcast.Field.Tests;

/// <summary>Keeps the rooms of the field in their order (docs/conventions.md): nothing in an earlier room names a later one.</summary>
public partial class ArchitectureTests
{
    private static readonly string[] Flow = ["Words", "Magnetism", "Pictures", "Card", "Exports"];

    private static readonly string Source = Path.Combine(Root(), "src", "Glowcast.Field");

    [Fact]
    public void Dependencies_follow_the_order_of_the_rooms() => Assert.Empty(
        from room in Enumerable.Range(0, Flow.Length)
        from file in Files()
        where RoomOf(file) == Flow[room]
        let text = Code(file)
        from later in Flow[(room + 1)..]
        where Regex.IsMatch(text, $@"\bGlowcast\.Field\.{later}\b|(?<!\.)\b{later}\.[A-Z]\w*\s*[.(<]")
        select $"{Flow[room]}/{Path.GetFileName(file)} looks ahead to {later}");

    [Fact]
    public void Every_file_stands_in_a_room_and_says_so() => Assert.Empty(
        from file in Files()
        where !Flow.Contains(RoomOf(file)) || !File.ReadAllText(file).Contains($"namespace Glowcast.Field.{RoomOf(file)};", StringComparison.Ordinal)
        select Path.GetRelativePath(Source, file));

    [Fact]
    public void The_field_knows_no_clock_network_or_console() => Assert.Empty(
        from file in Files()
        where Regex.IsMatch(Code(file), @"DateTime(Offset)?\.(Utc)?Now|SystemClock|Stopwatch|System\.Net\b|HttpClient|Console\.|Microsoft\.AspNetCore|Microsoft\.Data")
        select Path.GetRelativePath(Source, file));

    [Fact]
    public void The_order_is_the_one_that_the_documents_give() =>
        Assert.Contains(string.Join(" → ", Flow), File.ReadAllText(Path.Combine(Root(), "docs", "conventions.md")), StringComparison.Ordinal);

    private static string RoomOf(string file) => Path.GetRelativePath(Source, file).Split(Path.DirectorySeparatorChar)[0];

    private static string Code(string file) => Comments().Replace(File.ReadAllText(file), "");

    private static IEnumerable<string> Files() => Directory.EnumerateFiles(Source, "*.cs", SearchOption.AllDirectories).Where(file => RoomOf(file) is not ("bin" or "obj"));

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder!.FullName, "Glowcast.sln"))) folder = folder.Parent;
        return folder.FullName;
    }

    [GeneratedRegex(@"//[^\n]*")]
    private static partial Regex Comments();
}
