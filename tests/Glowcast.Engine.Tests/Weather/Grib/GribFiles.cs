using System.Globalization;
using CsvHelper;
using Glowcast.Engine.Weather;

namespace Glowcast.Engine.Tests.Weather;

/// <summary>GRIB files of the reference, and the tables beside them.</summary>
internal static class GribFiles
{
    public static GribSource Copied(string path) => GribSource.OnDisk(ReferenceData.Locate($"weather/{path}"));

    public static GribSource Shared(string path) => GribSource.OnDisk(SharedPath(path));

    public static string SharedPath(string path) => SharedData.Path($"reference/weather/{path}");

    public static IReadOnlyList<GribField> Fields(GribSource file) => Set(file).Fields;

    public static GribSet Set(params GribSource[] files) => GribSet.Of(files, cancel: TestContext.Current.CancellationToken);

    public static GribField Field(IReadOnlyList<GribField> fields, ReferenceRow row) =>
        fields.Single(field => field.Message == (int)row.Number("message") && field.Submessage == (int)row.Number("submessage"));

    /// <summary>The rows of a table outside this repository.</summary>
    public static IReadOnlyList<ReferenceRow> SharedRows(string path)
    {
        using var reader = new CsvReader(new StreamReader(SharedPath(path)), CultureInfo.InvariantCulture);
        reader.Read();
        reader.ReadHeader();
        var names = reader.HeaderRecord!;
        var rows = new List<ReferenceRow>();
        while (reader.Read()) rows.Add(new ReferenceRow(names.ToDictionary(name => name, name => reader.GetField(name) ?? "")));
        return rows;
    }

    /// <summary>Nine figures are what the tables give.</summary>
    public static void SameToNineFigures(double expected, double actual, string where)
    {
        if (!(Math.Abs(expected - actual) <= 6e-9 * Math.Max(Math.Abs(expected), 1e-3))) Assert.Fail($"{where}: expected {expected:R}, read {actual:R}");
    }
}
