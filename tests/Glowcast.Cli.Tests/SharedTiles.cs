namespace Glowcast.Cli.Tests;

/// <summary>Files of other projects that tests may read but this repository does not carry; they lie in a folder
/// <c>shared</c> beside the checkout. Tests that need them are skipped, with the reason, when it is not there.</summary>
internal sealed class SharedTiles : INeed
{
    private static readonly string? Root = FindRoot();

    private SharedTiles()
    {
    }

    public static bool IsPresent => Root is not null && File.Exists(Tile);

    public static string Missing => "the real elevation tiles (../shared/terrain) are not beside this checkout";

    /// <summary>The SRTM3 tile N44W072 (USGS/NASA, public domain).</summary>
    public static string Tile => Path.Combine(Root!, "terrain", "N44W072.hgt");

    private static string? FindRoot()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (!File.Exists(Path.Combine(folder.FullName, "Glowcast.sln"))) continue;
            var shared = Path.Combine(folder.Parent!.FullName, "shared");
            return Directory.Exists(shared) ? shared : null;
        }
        return null;
    }
}
