using System.Security.Cryptography;

namespace Glowcast.Engine.Tests.Terrain;

public class DemoTileTests
{
    [Fact]
    public void The_invented_tile_is_the_one_its_page_describes()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Glowcast.sln"))) folder = folder.Parent!;
        var samples = Path.Combine(folder.FullName, "terrain-samples");

        var digest = Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(Path.Combine(samples, "N46W032.hgt"))));

        Assert.Contains($"| SHA-256 | `{digest}` |", File.ReadAllText(Path.Combine(samples, "README.md")), StringComparison.Ordinal);
    }
}
