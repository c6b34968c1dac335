using System.Text.RegularExpressions;

namespace Glowcast.Engine.Tests;

/// <summary>Keeps the rooms of the engine in the direction of the data: nothing in an earlier room names a later one.</summary>
public partial class ArchitectureTests
{
    private static readonly string[] Flow = ["Measures", "Sky", "Terrain", "Weather", "Light", "Capture", "Forecast", "Take"];

    [Fact]
    public void Dependencies_follow_the_flow_of_the_data()
    {
        var lookingAhead =
            from room in Enumerable.Range(0, Flow.Length)
            from file in FilesOf(Flow[room])
            let text = WithoutComments().Replace(File.ReadAllText(file), "")
            from later in Flow[(room + 1)..]
            where Regex.IsMatch(text, $@"\bGlowcast\.Engine\.{later}\b|\b{later}\.[A-Z]\w*\s*[.(<]")
            select $"{Flow[room]}/{Path.GetFileName(file)} looks ahead to {later}";

        Assert.Empty(lookingAhead);
    }

    [Fact]
    public void Every_engine_file_stands_in_a_room_and_says_so()
    {
        var misplaced =
            from file in Directory.EnumerateFiles(EngineSource, "*.cs", SearchOption.AllDirectories)
            let room = Path.GetRelativePath(EngineSource, file).Split(Path.DirectorySeparatorChar)[0]
            where room is not ("bin" or "obj")
            where !Flow.Contains(room) || !File.ReadAllText(file).Contains($"namespace Glowcast.Engine.{room};", StringComparison.Ordinal)
            select Path.GetRelativePath(EngineSource, file);

        Assert.Empty(misplaced);
    }

    [Fact]
    public void The_engine_knows_no_clock_network_or_console()
    {
        var outside =
            from room in Flow
            from file in FilesOf(room)
            let text = WithoutComments().Replace(File.ReadAllText(file), "")
            where Regex.IsMatch(text, @"DateTime(Offset)?\.(Utc)?Now|SystemClock|Stopwatch|System\.Net\b|HttpClient|Console\.|Microsoft\.AspNetCore|Microsoft\.Data")
            select $"{room}/{Path.GetFileName(file)}";

        Assert.Empty(outside);
    }

    private static string EngineSource { get; } = FindEngine();

    private static IEnumerable<string> FilesOf(string room)
    {
        var folder = Path.Combine(EngineSource, room);
        return Directory.Exists(folder) ? Directory.EnumerateFiles(folder, "*.cs", SearchOption.AllDirectories) : [];
    }

    private static string FindEngine()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Glowcast.sln"))) folder = folder.Parent!;
        return Path.Combine(folder.FullName, "src", "Glowcast.Engine");
    }

    [GeneratedRegex(@"//[^\n]*")]
    private static partial Regex WithoutComments();
}
