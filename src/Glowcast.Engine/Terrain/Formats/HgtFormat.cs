using System.Globalization;
using System.Text.RegularExpressions;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>SRTM <c>.hgt</c>: a square of big-endian 16-bit heights [m above EGM96], north to south, west to east,
/// without a header. Its size tells the spacing, its name (<c>N46E007.hgt</c>) the centre of the south-west sample.</summary>
/// <remarks>Source: USGS/NASA SRTM documentation, "SRTM Topography" (sections 3.1 and 3.2).</remarks>
internal sealed partial class HgtFormat : IGridFormat
{
    public string Name => "SRTM .hgt";

    public bool Recognises(string fileName) => IsTile(fileName);

    public GridSource Open(Stream stream, string fileName) => new HgtSource(stream, fileName, PostsOf(fileName, stream.Length));

    public static bool IsTile(string fileName) => fileName.EndsWith(".hgt", StringComparison.OrdinalIgnoreCase);

    /// <summary>The net of a tile by its name and the number of its bytes.</summary>
    public static GridPosts PostsOf(string tileName, long bytes)
    {
        var (south, west) = CornerFrom(tileName);
        var size = bytes switch
        {
            2L * 1201 * 1201 => 1201,
            2L * 3601 * 3601 => 3601,
            _ => throw new BadInputException(tileName, $"Has {bytes} bytes; an .hgt tile has 2884802 (1201 × 1201, 3″) or 25934402 (3601 × 3601, 1″). It is cut off or not an SRTM tile."),
        };
        var step = 1.0 / (size - 1);
        return new GridPosts(size, size, south + 1, west, step, step);
    }

    private static (int South, int West) CornerFrom(string fileName)
    {
        var match = CornerName().Match(Path.GetFileName(fileName));
        if (!match.Success)
            throw new BadInputException(fileName, "An .hgt file is placed by its name, which must be like N46E007.hgt: N or S, two digits of latitude, E or W, three digits of longitude of the south-west corner.");
        var south = int.Parse(match.Groups["lat"].ValueSpan, CultureInfo.InvariantCulture);
        var west = int.Parse(match.Groups["lon"].ValueSpan, CultureInfo.InvariantCulture);
        if (match.Groups["ns"].Value is "S" or "s") south = -south;
        if (match.Groups["ew"].Value is "W" or "w") west = -west;
        if (south is < -90 or > 89 || west is < -180 or > 179)
            throw new BadInputException(fileName, "The name puts the tile off the earth: latitudes run from S90 to N89, longitudes from W180 to E179.");
        return (south, west);
    }

    [GeneratedRegex(@"^(?<ns>[NS])(?<lat>\d{2})(?<ew>[EW])(?<lon>\d{3})\b", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex CornerName();
}
