using System.Globalization;
using System.Text.Json;
using CsvHelper;

namespace Glowcast.Engine.Tests;

/// <summary>The published and independently computed values in <c>Reference/</c>; its README says where each is from.</summary>
internal static class ReferenceData
{
    /// <summary>The rows of a table, by column name.</summary>
    public static IReadOnlyList<ReferenceRow> Rows(string path)
    {
        using var reader = new CsvReader(new StreamReader(Locate(path)), CultureInfo.InvariantCulture);
        reader.Read();
        reader.ReadHeader();
        var names = reader.HeaderRecord!;
        var rows = new List<ReferenceRow>();
        while (reader.Read()) rows.Add(new ReferenceRow(names.ToDictionary(name => name, name => reader.GetField(name) ?? "")));
        return rows;
    }

    public static JsonDocument Json(string path) => JsonDocument.Parse(File.ReadAllText(Locate(path)));

    public static Stream Open(string path) => File.OpenRead(Locate(path));

    /// <summary>The file's full path.</summary>
    public static string Locate(string path) => Path.Combine(AppContext.BaseDirectory, "Reference", path);
}

/// <summary>One row of a reference table.</summary>
internal sealed class ReferenceRow(Dictionary<string, string> fields)
{
    public string this[string name] => fields[name];

    public bool Has(string name) => fields[name].Length > 0;

    public double Number(string name) => double.Parse(fields[name], CultureInfo.InvariantCulture);

    public bool Flag(string name) => fields[name] == "1";
}
