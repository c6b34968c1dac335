using System.Globalization;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Engine.Tests.Weather;

/// <summary>Headers: times, levels, several fields in a message; and files that are damaged (Reference/weather/PROVENANCE.md).</summary>
public class GribHeaderTests
{
    [Fact]
    public void Times_and_levels_are_those_of_an_independent_reader()
    {
        var fields = GribFiles.Fields(GribFiles.Copied("grib/header_variants.grib2"));
        var rows = ReferenceData.Rows("weather/grib/header_variants.expected.csv");
        Assert.Equal(rows.Count, fields.Count);
        foreach (var row in rows)
        {
            var field = GribFiles.Field(fields, row);
            var product = field.Product;
            Assert.Equal(((int)row.Number("discipline"), (int)row.Number("category"), (int)row.Number("number")), (product.Discipline, product.Category, product.Number));
            Assert.Equal((int)row.Number("product_template"), product.Template);
            Assert.Equal(Time(row["reference_utc"]), product.Reference);
            Assert.Equal(Time(row["start_utc"]), product.Start);
            Assert.Equal(Time(row["end_utc"]), product.End);
            Assert.Equal((int)row.Number("level1_type"), product.Level.Type);
            Assert.Equal(Text(row["level1_value"]), product.Level.Value);
            Assert.Equal(row["level2_type"].Length > 0 ? (int)row.Number("level2_type") : null, product.Level.SecondType);
            Assert.Equal(Text(row["level2_value"]), product.Level.SecondValue);
            Assert.Equal((int)row.Number("missing_points"), field.Values().Missing);
        }
    }

    [Fact]
    public void Damaged_files_are_refused_with_a_reason_and_good_messages_beside_damage_are_read()
    {
        foreach (var row in ReferenceData.Rows("weather/broken/expected.csv"))
        {
            var before = GC.GetAllocatedBytesForCurrentThread();
            var (read, reason) = ReadAll(GribFiles.Copied($"broken/{row["file"]}"));
            Assert.True(GC.GetAllocatedBytesForCurrentThread() - before < 4 << 20, $"{row["file"]} took too much memory");
            Assert.Equal((int)row.Number("messages_readable"), read);
            Assert.Equal(row["verdict"] == "read", reason.Length == 0);
        }
    }

    /// <summary>Reads every field, values and all.</summary>
    /// <returns>How many could be read, and why others could not.</returns>
    private static (int Read, string Reason) ReadAll(GribSource file)
    {
        try
        {
            var set = GribFiles.Set(file);
            foreach (var field in set.Fields) _ = field.Values();
            return (set.Fields.Count, string.Join(' ', set.Refused));
        }
        catch (BadInputException bad)
        {
            return (0, bad.Message);
        }
    }

    [Theory]
    [InlineData("", "empty")]
    [InlineData("no message at all", "no GRIB message")]
    [InlineData("GRIB", "no GRIB message")]
    public void What_is_no_grib_file_is_refused(string text, string why)
    {
        var refusal = Assert.Throws<BadInputException>(() => GribFiles.Fields(GribSource.InMemory("f", System.Text.Encoding.ASCII.GetBytes(text))));
        Assert.Contains(why, refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Edition_1_between_messages_is_passed_over_and_alone_is_refused_by_name()
    {
        byte[] old = [.. "GRIB"u8, 0, 0, 16, 1, 9, 9, 9, 9, .. "7777"u8];
        var good = File.ReadAllBytes(ReferenceData.Locate("weather/scanning/scan_000.grib2"));
        var set = GribFiles.Set(GribSource.InMemory("mixed", [.. old, .. good, .. old, 0, 0, .. good]));
        Assert.Equal([1, 2], set.Fields.Select(field => field.Message));
        Assert.Empty(set.Refused);

        var refusal = Assert.Throws<BadInputException>(() => GribFiles.Fields(GribSource.InMemory("old", old)));
        Assert.Contains("edition 1", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_message_across_the_windows_of_the_search_is_found()
    {
        var good = File.ReadAllBytes(ReferenceData.Locate("weather/scanning/scan_000.grib2"));
        foreach (var padding in (int[])[1, 253, 254, 255, 256, 65_789, 65_790, 65_791, 200_000])
        {
            var set = GribFiles.Set(GribSource.InMemory("padded", [.. new byte[padding], .. good]));
            Assert.Single(set.Fields);
        }
    }

    private static Instant Time(string text) => InstantPattern.ExtendedIso.Parse(text).Value;

    private static double? Text(string text) => text.Length == 0 ? null : double.Parse(text, CultureInfo.InvariantCulture);
}
