using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;

namespace Glowcast.Engine.Tests.Weather;

/// <summary>One field in 34 packings and sixteen scan orders, against tables made by independent readers (Reference/weather/PROVENANCE.md).</summary>
public class PackingTests
{
    /// <summary>Double precision holds every value of the tables; they give nine figures.</summary>
    [Fact]
    public void Every_packing_gives_every_value_of_the_table()
    {
        var rows = ReferenceData.Rows("weather/packing/expected.csv");
        var files = Directory.EnumerateFiles(ReferenceData.Locate("weather/packing"), "*.grib2").Where(file => !file.Contains("jpeg2000", StringComparison.Ordinal)).ToList();
        Assert.Equal(34, files.Count);
        foreach (var file in files)
        {
            var name = Path.GetFileNameWithoutExtension(file);
            var values = GribFiles.Fields(GribSource.OnDisk(file)).Single().Values();
            Assert.Equal(rows.Count, values.Count);
            foreach (var row in rows)
            {
                var read = values[(int)row.Number("k")];
                if (row.Has(name)) GribFiles.SameToNineFigures(row.Number(name), read, $"{name} at {row["k"]}");
                else Assert.True(double.IsNaN(read), $"{name} at {row["k"]} is missing, read {read}");
            }
        }
    }

    [Fact]
    public void Points_lie_where_the_table_puts_them()
    {
        var grid = GribFiles.Fields(GribFiles.Copied("packing/simple.grib2")).Single().Grid;
        foreach (var row in ReferenceData.Rows("weather/packing/expected.csv"))
        {
            var (i, j) = ((int)row.Number("i"), (int)row.Number("j"));
            Assert.Equal((int)row.Number("k"), grid.DataIndex(i, j));
            var point = grid.PointAt(i, j);
            Assert.Equal(row.Number("lat"), point.LatitudeDeg, 1e-6);
            Assert.Equal(row.Number("lon"), point.LongitudeDeg, 1e-6);
        }
    }

    [Fact]
    public void All_sixteen_scan_orders_give_one_field()
    {
        var rows = ReferenceData.Rows("weather/scanning/expected.csv");
        var files = Directory.EnumerateFiles(ReferenceData.Locate("weather/scanning"), "*.grib2").ToList();
        Assert.Equal(16, files.Count);
        foreach (var file in files)
        {
            var field = GribFiles.Fields(GribSource.OnDisk(file)).Single();
            var values = field.Values();
            foreach (var row in rows)
            {
                var point = GeoPoint.FromDegrees(row.Number("lat"), row.Number("lon"));
                GribFiles.SameToNineFigures(row.Number("value"), field.Grid.ValueAt(values, point, nearest: true)!.Value, $"{file} at {point}");
                GribFiles.SameToNineFigures(row.Number("value"), field.Grid.ValueAt(values, point)!.Value, $"{file} at {point}");
            }
        }
    }

    [Fact]
    public void Jpeg_2000_is_refused_by_name_with_what_to_take_instead()
    {
        var refusal = Assert.Throws<BadInputException>(() => GribFiles.Fields(GribFiles.Copied("packing/jpeg2000.grib2")));
        Assert.Contains("JPEG 2000", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("Take", refusal.Message, StringComparison.Ordinal);
    }
}
