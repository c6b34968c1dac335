using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Cli.Asking;

/// <summary>Elevation grids from files.</summary>
internal static class GridFiles
{
    /// <summary>Reads and joins grids.</summary>
    /// <param name="paths">At least one, as the user wrote them.</param>
    /// <param name="field">Where the user wrote them.</param>
    /// <exception cref="BadInputException">A file is missing or not a grid, or they cannot be joined; says it of every file.</exception>
    public static ElevationGrid Read(IReadOnlyList<string> paths, string field)
    {
        var grids = ReadEach(paths, field);
        try
        {
            return GridMosaic.Join(grids);
        }
        catch (BadInputException bad)
        {
            throw new BadInputException([.. bad.Faults.Select(fault => fault with { Field = field })]);
        }
    }

    /// <summary>Reads grids, each for itself.</summary>
    /// <inheritdoc cref="Read"/>
    public static IReadOnlyList<ElevationGrid> ReadEach(IReadOnlyList<string> paths, string field)
    {
        var faults = new Faults();
        if (paths.Count == 0) faults.Add(field, "Is missing; name at least one elevation file, such as N44W072.hgt.");
        var grids = paths.Select(path => ReadOne(path, $"{field} {path}", faults)).OfType<ElevationGrid>().ToList();
        faults.ThrowIfAny();
        return grids;
    }

    private static ElevationGrid? ReadOne(string path, string field, Faults faults)
    {
        if (InputFile.Open(path, field, "an elevation file", faults) is not { } stream) return null;
        using (stream)
        {
            var name = Path.GetFileName(path);
            try
            {
                if (stream.CanSeek) return GridFile.Read(stream, name);
                faults.Add(field, "Is no ordinary file; name an elevation file that is.");
            }
            catch (BadInputException bad)
            {
                foreach (var fault in bad.Faults) faults.Add(field, fault.Field == name ? fault.Message : $"{fault.Field}: {fault.Message}");
            }
            catch (IOException broken)
            {
                faults.Add(field, $"Cannot be read to its end: {broken.Message}");
            }
            return null;
        }
    }
}
