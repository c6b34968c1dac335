using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;

namespace Glowcast.Cli.Asking;

/// <summary>The list of stations that the archive offers, where it lies beside the archive of one.</summary>
internal static class StationList
{
    private static readonly string[] Names = ["igra2-station-list.txt", "station-list.txt"];

    /// <param name="path">Of the station's archive.</param>
    /// <param name="archive">The same, open.</param>
    /// <returns>Null without a list, or where the station is not in it.</returns>
    public static Length? Elevation(string path, Stream archive)
    {
        var folder = Path.GetDirectoryName(Path.GetFullPath(path)) ?? "";
        if (Array.Find(Names, name => File.Exists(Path.Combine(folder, name))) is not { } list || StationOf(archive) is not { } station) return null;
        using var reader = new StreamReader(Path.Combine(folder, list));
        return StationClimate.ElevationIn(reader, station);
    }

    private static string? StationOf(Stream archive)
    {
        try
        {
            return StationClimate.StationOf(archive);
        }
        catch (InvalidDataException)
        {
            return null;
        }
        finally
        {
            archive.Position = 0;
        }
    }
}
