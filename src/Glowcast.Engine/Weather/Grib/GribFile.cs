using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>Fields of weather models: what files of GRIB edition 2 hold, found by their headers (docs/model.md, W14).</summary>
/// <param name="Fields">Those that can be read, in the order of the files.</param>
/// <param name="Refused">What was passed over because it is damaged or not read, in sentences.</param>
public sealed record GribSet(IReadOnlyList<GribField> Fields, IReadOnlyList<Fault> Refused)
{
    /// <summary>More than some hundred hours of a whole global model have.</summary>
    internal const int MostFields = 200_000;

    /// <summary>Reads the headers of several files as one set.</summary>
    /// <param name="passed">Told after each message how many octets of all the files were passed.</param>
    /// <exception cref="BadInputException">A file has no field that can be read; says why.</exception>
    public static GribSet Of(IReadOnlyList<GribSource> files, Action<long>? passed = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(files);
        var (fields, refused, faults) = (new List<GribField>(), new List<Fault>(), new Faults());
        var grids = new GribGridShelf();
        var before = 0L;
        foreach (var file in files)
        {
            try
            {
                before += file.Read(stream =>
                {
                    new GribScan(file, stream, grids, octets => passed?.Invoke(before + octets), cancel).Into(fields, refused);
                    return stream.Length;
                });
            }
            catch (BadInputException bad)
            {
                foreach (var fault in bad.Faults) faults.Add(fault.Field, fault.Message);
            }
        }
        faults.ThrowIfAny();
        return new GribSet(fields, refused);
    }
}
