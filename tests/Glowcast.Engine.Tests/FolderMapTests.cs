using System.Text.RegularExpressions;

namespace Glowcast.Engine.Tests;

/// <summary>Keeps the map in DEVELOPERS.md true: it names every folder under src, and none besides.</summary>
public partial class FolderMapTests
{
    [Fact]
    public void The_map_names_the_folders_that_there_are()
    {
        Assert.Equal(Folders().Order(StringComparer.Ordinal), Map().Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Tests_of_the_engine_stand_in_folders_of_the_engine() => Assert.Empty(
        from folder in Below(Path.Combine(Root, "tests", "Glowcast.Engine.Tests"))
        let name = Relative(folder)["tests/Glowcast.Engine.Tests/".Length..]
        where !name.StartsWith("Reference", StringComparison.Ordinal) && !Directory.Exists(Path.Combine(Root, "src", "Glowcast.Engine", name))
        select name);

    internal static string Root { get; } = FindRoot();

    private static IEnumerable<string> Folders() => Below(Path.Combine(Root, "src")).Select(Relative);

    /// <summary>The folders of the map, a line each, four spaces further in for each folder they stand in.</summary>
    private static IEnumerable<string> Map()
    {
        var above = new List<string>();
        foreach (Match line in FolderLine().Matches(File.ReadAllText(Path.Combine(Root, "DEVELOPERS.md"))))
        {
            var depth = line.Groups["indent"].Length / 4;
            above.RemoveRange(depth, above.Count - depth);
            above.Add(line.Groups["name"].Value);
            if (above[0].StartsWith("src/", StringComparison.Ordinal)) yield return string.Join('/', above);
        }
    }

    private static IEnumerable<string> Below(string folder) =>
        from inside in Directory.EnumerateDirectories(folder)
        where Path.GetFileName(inside) is not ("bin" or "obj")
        from one in Below(inside).Prepend(inside)
        select one;

    private static string Relative(string folder) => Path.GetRelativePath(Root, folder).Replace(Path.DirectorySeparatorChar, '/');

    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder!.FullName, "Glowcast.sln"))) folder = folder.Parent;
        return folder.FullName;
    }

    [GeneratedRegex(@"^(?<indent> *)(?<name>[\w./]+)/  +\S", RegexOptions.Multiline)]
    private static partial Regex FolderLine();
}
