using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests;

/// <summary>The real elevation tiles of <see cref="SharedData"/>.</summary>
internal sealed class SharedTiles : INeed
{
    private SharedTiles()
    {
    }

    public static bool IsPresent => SharedData.HasTiles;

    public static string Missing => "the real elevation tiles (../shared/terrain) are not beside this checkout";
}

/// <summary>The reference files of <see cref="SharedData"/>.</summary>
internal sealed class SharedReference : INeed
{
    private SharedReference()
    {
    }

    public static bool IsPresent => SharedData.HasReference;

    public static string Missing => "the reference files of other projects (../shared/reference) are not beside this checkout";
}

/// <summary>Files of other projects that tests may read but this repository does not carry; they lie in a folder
/// <c>shared</c> beside the checkout. Tests that need them are skipped, with the reason, when it is not there.</summary>
internal static class SharedData
{
    private static readonly string? Root = FindRoot();

    public static bool HasTiles => Root is not null && File.Exists(Path("terrain/N44W072.hgt"));

    public static bool HasReference => Root is not null && Directory.Exists(Path("reference"));

    public static string Path(string relative) => System.IO.Path.Combine(Root!, relative);

    /// <summary>The SRTM3 tile N44W072 (USGS/NASA, public domain), read once.</summary>
    public static ElevationGrid Tile => LazyTile.Value;

    private static readonly Lazy<ElevationGrid> LazyTile = new(() => Read("N44W072.hgt"));

    /// <summary>One of the real tiles by its file's name.</summary>
    public static ElevationGrid Read(string tile)
    {
        using var stream = File.OpenRead(Path("terrain/" + tile));
        return GridFile.Read(stream, tile);
    }

    private static string? FindRoot()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (!File.Exists(System.IO.Path.Combine(folder.FullName, "Glowcast.sln"))) continue;
            var shared = System.IO.Path.Combine(folder.Parent!.FullName, "shared");
            return Directory.Exists(shared) ? shared : null;
        }
        return null;
    }
}
