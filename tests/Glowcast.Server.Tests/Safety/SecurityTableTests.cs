using System.Runtime.CompilerServices;
using System.Text.RegularExpressions;

namespace Glowcast.Server.Tests.Safety;

public partial class SecurityTableTests
{
    [Fact]
    public void Every_test_that_the_table_of_threats_names_exists()
    {
        var top = Path.GetFullPath(Path.Combine(Path.GetDirectoryName(ThisFile())!, "..", "..", ".."));
        var named = TestName().Matches(File.ReadAllText(Path.Combine(top, "docs", "security.md"))).Select(match => match.Groups[1].Value).ToHashSet();
        var sources = Directory.EnumerateFiles(Path.Combine(top, "tests"), "*Tests.cs", SearchOption.AllDirectories).Select(File.ReadAllText).ToList();

        Assert.True(named.Count > 20);
        Assert.All(named, name => Assert.Contains(sources, source => source.Contains($" {name}(", StringComparison.Ordinal)));
    }

    private static string ThisFile([CallerFilePath] string path = "") => path;

    [GeneratedRegex("`([A-Z][a-z0-9]*(?:_[a-z0-9]+)+)`")]
    private static partial Regex TestName();
}
