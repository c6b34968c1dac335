using System.Globalization;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using System.Text;
using Glowcast.Engine.Terrain;

namespace Glowcast.Server.Grids;

/// <summary>A hash of all that a grid tells a forecast: where its posts stand, how high they are, and what it is called.</summary>
internal static class GridFingerprint
{
    public static string Of(ElevationGrid grid)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var posts = grid.Posts;
        hash.AppendData(Encoding.UTF8.GetBytes(string.Create(
            CultureInfo.InvariantCulture,
            $"{grid.Name}|{grid.VerticalDatum}|{grid.HeightError.Size.Metres:R}|{posts.Crs}|{posts.Projection}|{posts.Rows}|{posts.Columns}|{posts.NorthDeg:R}|{posts.SouthDeg:R}|{posts.WestDeg:R}|{posts.EastDeg:R}")));
        for (var row = 0; row < posts.Rows; row++) hash.AppendData(MemoryMarshal.AsBytes(grid.Row(row)));
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }
}
