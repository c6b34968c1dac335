using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Cli.Asking;

/// <summary>Elevation grids from files.</summary>
internal static class GridFiles
{
    /// <summary>Reads and joins grids.</summary>
    /// <param name="paths">At least one, as the user wrote them.</param>
    /// <param name="field">Where the user wrote them.</param>
    /// <param name="reading">How much of them is wanted.</param>
    /// <exception cref="BadInputException">A file is missing or not a grid, or they cannot be joined; says it of every file.</exception>
    public static ElevationGrid Read(IReadOnlyList<string> paths, string field, GridReading reading)
    {
        using var files = new OpenGrids(field);
        var faults = new Faults();
        if (paths.Count == 0) faults.Add(field, "Is missing; name at least one elevation file, such as N44W072.hgt.");
        foreach (var path in paths) files.Open(path, faults);
        faults.ThrowIfAny();
        return files.Join(reading);
    }

    /// <summary>Reads grids whole, each for itself.</summary>
    /// <inheritdoc cref="Read"/>
    public static IReadOnlyList<ElevationGrid> ReadEach(IReadOnlyList<string> paths, string field)
    {
        var faults = new Faults();
        var grids = new List<ElevationGrid>();
        foreach (var path in paths)
        {
            try
            {
                grids.Add(Read([path], field, GridReading.Whole));
            }
            catch (BadInputException bad)
            {
                foreach (var fault in bad.Faults) faults.Add(fault.Field, fault.Message);
            }
        }
        faults.ThrowIfAny();
        return grids;
    }

    // GDAL puts a mask there that a format, or whoever wrote it, cannot keep within.
    private const string MaskEnding = ".msk";

    /// <summary>Grid files that are open until their heights are read.</summary>
    private sealed class OpenGrids(string field) : IDisposable
    {
        private readonly List<(string Path, FileStream Stream, GridSource Grid)> files = [];

        public void Open(string path, Faults faults)
        {
            if (InputFile.Open(path, $"{field} {path}", "an elevation file", faults) is not { } stream) return;
            try
            {
                if (!stream.CanSeek) throw new BadInputException(path, "Is no ordinary file; name an elevation file that is.");
                if (File.Exists(path + MaskEnding)) throw new BadInputException(path, $"Has a mask in a file beside it ({Path.GetFileName(path)}{MaskEnding}), which says where it has no heights and is not read. Write both into one GeoTIFF, or take the mask away.");
                files.Add((path, stream, GridFile.Open(stream, Path.GetFileName(path))));
            }
            catch (Exception fault) when (fault is BadInputException or IOException)
            {
                stream.Dispose();
                foreach (var (_, message) in FaultsOf(fault)) faults.Add($"{field} {path}", message);
            }
        }

        public ElevationGrid Join(GridReading reading)
        {
            try
            {
                return GridMosaic.Read([.. files.Select(file => file.Grid)], reading);
            }
            catch (Exception fault) when (fault is BadInputException or IOException)
            {
                throw new BadInputException([.. FaultsOf(fault).Select(told => told with { Field = FieldOf(told.Field) })]);
            }
        }

        public void Dispose()
        {
            foreach (var file in files) file.Stream.Dispose();
        }

        private string FieldOf(string name) =>
            files.Find(file => Path.GetFileName(file.Path) == name || file.Grid.Name == name) is { Path: { } path } ? $"{field} {path}" : field;

        private static IReadOnlyList<Fault> FaultsOf(Exception fault) => fault is BadInputException bad
            ? bad.Faults
            : [new Fault("", $"Cannot be read to its end: {FileRefusal.Because(fault)}.")];
    }
}
