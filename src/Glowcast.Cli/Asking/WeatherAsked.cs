using System.CommandLine;
using Glowcast.Cli.Showing;
using Glowcast.Engine.Weather;

namespace Glowcast.Cli.Asking;

/// <summary>Files of weather models, from their names.</summary>
internal static class WeatherAsked
{
    public static Argument<string[]> Files() => new("file")
    {
        Description = "Fields of weather models: GRIB edition 2, one file or several.",
        Arity = ArgumentArity.ZeroOrMore,
    };

    /// <summary>Finds the fields of files, and says what was passed over.</summary>
    /// <param name="paths">As the user wrote them.</param>
    /// <param name="field">Where the user wrote them.</param>
    /// <returns>Null after a fault, which is noted.</returns>
    public static GribSet? Read(Question asked, IReadOnlyList<string> paths, string field, Terminal terminal, CancellationToken cancel)
    {
        if (paths.Count == 0) asked.Faults.Add(field, "Is missing; name at least one GRIB file, such as run.grib2.");
        var (sources, octets) = (new List<GribSource>(), 0L);
        foreach (var path in paths)
        {
            using var file = InputFile.Open(path, $"{field} {path}", "a GRIB file", asked.Faults);
            if (file is null) continue;
            if (!file.CanSeek) asked.Faults.Add($"{field} {path}", "Is no ordinary file; name a GRIB file that is.");
            else octets += file.Length;
            sources.Add(GribSource.OnDisk(path));
        }
        if (asked.Faults.Any) return null;
        using var progress = new ProgressLine(terminal, "reading headers");
        var set = asked.Try(() => GribSet.Of(sources, passed => progress.Report((double)passed / Math.Max(1, octets)), cancel));
        foreach (var refused in set?.Refused ?? []) terminal.Tell($"{refused}");
        return set;
    }
}
