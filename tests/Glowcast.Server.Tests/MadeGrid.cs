using System.Globalization;
using System.Text;

namespace Glowcast.Server.Tests;

/// <summary>Small elevation files made for tests.</summary>
internal static class MadeGrid
{
    /// <summary>A slope as Esri ASCII grid, south-west corner 46° N 7° E; different for every number.</summary>
    public static byte[] Ascii(int number, int size = 20)
    {
        var text = new StringBuilder().Append(CultureInfo.InvariantCulture, $"ncols {size}\nnrows {size}\nxllcenter 7\nyllcenter 46\ncellsize 0.001\n");
        for (var i = 0; i < size * size; i++) text.Append(CultureInfo.InvariantCulture, $"{1000 + (i % size) + (number % 1000)} ");
        text.Append('\n');
        return Encoding.ASCII.GetBytes(text.ToString());
    }
}
