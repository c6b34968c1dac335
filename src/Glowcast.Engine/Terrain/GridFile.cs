using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Reads elevation grids, whatever their format.</summary>
public static class GridFile
{
    private static readonly IGridFormat[] Formats = [new HgtFormat(), new EsriAsciiFormat()];

    /// <summary>Reads one grid from a stream.</summary>
    /// <param name="stream">At its beginning; it must be seekable.</param>
    /// <param name="fileName">Tells the format, and for .hgt the place.</param>
    /// <exception cref="BadInputException">No format that is known, or not what it says it is.</exception>
    public static ElevationGrid Read(Stream stream, string fileName)
    {
        ArgumentNullException.ThrowIfNull(stream);
        var format = Array.Find(Formats, format => format.Recognises(fileName))
            ?? throw new BadInputException(fileName, $"Is of no elevation format known here ({string.Join(", ", Formats.Select(format => format.Name))}).");
        return format.Read(stream, fileName);
    }
}
