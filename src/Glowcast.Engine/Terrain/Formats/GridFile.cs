using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>Reads elevation grids, whatever their format.</summary>
public static class GridFile
{
    private static readonly IGridFormat[] Formats = [new HgtFormat(), new ZippedHgtFormat(), new EsriAsciiFormat(), new GeoTiffFormat(), new DtedFormat()];

    /// <summary>Reads one grid from a stream, whole.</summary>
    /// <inheritdoc cref="Open"/>
    public static ElevationGrid Read(Stream stream, string fileName) => GridMosaic.Read([Open(stream, fileName)]);

    /// <summary>Finds out where the grid in a stream lies; <see cref="GridMosaic.Read"/> then reads its heights.</summary>
    /// <param name="stream">At its beginning; it must be seekable, and stay open until the heights are read.</param>
    /// <param name="fileName">Tells the format, and for .hgt the place.</param>
    /// <exception cref="BadInputException">No format that is known, or not what it says it is.</exception>
    public static GridSource Open(Stream stream, string fileName)
    {
        ArgumentNullException.ThrowIfNull(stream);
        var format = Array.Find(Formats, format => format.Recognises(fileName))
            ?? throw new BadInputException(fileName, $"Is of no elevation format known here ({string.Join(", ", Formats.Select(format => format.Name))}).");
        try
        {
            return format.Open(stream, fileName);
        }
        catch (BadInputException refusal) when (refusal.Faults.Any(fault => fault.Field != fileName))
        {
            // What a net or a projection says of its numbers is a fault of the file.
            throw new BadInputException([.. refusal.Faults.Select(fault => fault.Field == fileName ? fault : new Fault(fileName, $"Its {fault.Field}: {fault.Message}"))]);
        }
    }
}
