using Glowcast.Engine.Measures;
using Glowcast.Engine.Weather;
using NodaTime.Text;

namespace Glowcast.Engine.Tests.Weather;

/// <summary>Real files of weather services, every field decoded by two independent readers (../shared/reference/weather/PROVENANCE.md).
/// They stay outside this repository.</summary>
public class RealGribTests
{
    private const double PositionToleranceDeg = 1.5e-6;

    /// <summary>Its corner points are rounded to thousandths, and those of the file to the last point.</summary>
    private const double RotatedToleranceDeg = 4e-4;

    private static bool IsRefused(string file) => file.Contains("jpeg2000", StringComparison.Ordinal) || file.StartsWith("refuse", StringComparison.Ordinal);

    [FactNeeds<SharedReference>]
    public void Every_field_of_every_file_has_the_header_and_the_numbers_of_the_table()
    {
        foreach (var file in GribFiles.SharedRows("grib/messages.csv").Where(row => !IsRefused(row["file"])).GroupBy(row => row["file"]))
        {
            var path = File.Exists(GribFiles.SharedPath($"grib/{file.Key}")) ? $"grib/{file.Key}" : $"profiles/{file.Key}";
            var fields = GribFiles.Fields(GribFiles.Shared(path));
            Assert.Equal(file.Count(), fields.Count);
            foreach (var row in file) SameField(row, GribFiles.Field(fields, row));
        }
    }

    private static void SameField(ReferenceRow row, GribField field)
    {
        var (product, where) = (field.Product, $"{row["file"]} {row["message"]}.{row["submessage"]}");
        Assert.Equal($"{row["discipline"]}-{row["category"]}-{row["number"]}", $"{product.Discipline}-{product.Category}-{product.Number}");
        Assert.Equal((int)row.Number("product_template"), product.Template);
        Assert.Equal((int)row.Number("level1_type"), product.Level.Type);
        if (row.Has("level1_value")) Assert.Equal(row.Number("level1_value"), product.Level.Value!.Value, 1e-9);
        Assert.Equal(InstantPattern.ExtendedIso.Parse(row["reference_utc"]).Value, product.Reference);
        Assert.Equal(row.Number("start_h"), (product.Start - product.Reference).TotalHours, 1e-9);
        Assert.Equal(row.Number("end_h"), (product.End - product.Reference).TotalHours, 1e-9);
        Assert.Equal(((int)row.Number("grid_template"), (int)row.Number("packing_template")), (field.Grid.Template, field.PackingTemplate));
        Assert.Equal(((int)row.Number("ni"), (int)row.Number("nj")), (field.Grid.Ni, field.Grid.Nj));
        // The table gives the corners of a rotated grid about its moved pole; its single points are checked below.
        if (field.Grid.Template != 1) Near(row.Number("first_lat"), row.Number("first_lon"), field.Grid.PointAt(0, 0), where);
        if (field.Grid.Template != 1) Near(row.Number("corner2_lat"), row.Number("corner2_lon"), field.Grid.PointAt(field.Grid.Ni - 1, field.Grid.Nj - 1), where);

        var values = field.Values();
        Assert.Equal((int)row.Number("missing_points"), values.Missing);
        var present = Enumerable.Range(0, values.Count).Select(k => values[k]).Where(value => !double.IsNaN(value)).ToList();
        if (present.Count == 0) return;
        GribFiles.SameToNineFigures(row.Number("min"), present.Min(), $"least of {where}");
        GribFiles.SameToNineFigures(row.Number("max"), present.Max(), $"greatest of {where}");
        Assert.Equal(row.Number("mean"), present.Average(), 1e-7 * Math.Max(1, Math.Abs(present.Max())));
    }

    [FactNeeds<SharedReference>]
    public void Single_points_have_their_places_and_values()
    {
        foreach (var table in Directory.EnumerateFiles(GribFiles.SharedPath("grib"), "*.expected.csv").Select(Path.GetFileName).Where(name => !IsRefused(name!) && !name!.StartsWith("header", StringComparison.Ordinal)))
        {
            var fields = GribFiles.Fields(GribFiles.Shared($"grib/{table!.Replace(".expected.csv", ".grib2", StringComparison.Ordinal)}"));
            foreach (var message in GribFiles.SharedRows($"grib/{table}").GroupBy(row => (row["message"], row["submessage"])))
            {
                var field = GribFiles.Field(fields, message.First());
                var values = field.Values();
                foreach (var row in message)
                {
                    var (i, j, k) = ((int)row.Number("i"), (int)row.Number("j"), (int)row.Number("k"));
                    Assert.Equal(k, field.Grid.DataIndex(i, j));
                    Near(row.Number("lat"), row.Number("lon"), field.Grid.PointAt(i, j), $"{table} {i},{j}");
                    if (row.Has("value")) GribFiles.SameToNineFigures(row.Number("value"), values[k], $"{table} {k}");
                    else Assert.True(double.IsNaN(values[k]));
                }
            }
        }
    }

    [FactNeeds<SharedReference>]
    public void Values_at_any_place_are_those_of_the_table()
    {
        foreach (var file in GribFiles.SharedRows("grib/interpolated.csv").Where(row => !IsRefused(row["file"])).GroupBy(row => row["file"]))
        {
            var fields = GribFiles.Fields(GribFiles.Shared($"grib/{file.Key}"));
            foreach (var message in file.GroupBy(row => (row["message"], row["submessage"])))
            {
                var field = GribFiles.Field(fields, message.First());
                var values = field.Values();
                foreach (var row in message) SameValue(row, field.Grid, values);
            }
        }
    }

    private static void SameValue(ReferenceRow row, GribGrid grid, GribValues values)
    {
        var where = $"{row["file"]} at {row["lat"]}, {row["lon"]}";
        var point = GeoPoint.FromDegrees(row.Number("lat"), row.Number("lon"));
        var index = grid.Locate(point);
        Assert.True(row.Flag("inside") == index is not null, where);
        if (index is null) return;
        Assert.Equal(row.Number("frac_i"), index.Value.I, 2e-4);
        Assert.Equal(row.Number("frac_j"), index.Value.J, 2e-4);
        Same(row, "nearest_value", grid.ValueAt(values, point, nearest: true)!.Value, where);
        Same(row, "bilinear_value", grid.ValueAt(values, point)!.Value, where);
    }

    private static void Same(ReferenceRow row, string column, double actual, string where)
    {
        if (!row.Has(column)) Assert.True(double.IsNaN(actual), $"{where}: {column} is missing, read {actual}");
        else Assert.True(Math.Abs(row.Number(column) - actual) <= 1e-5 * Math.Max(Math.Abs(row.Number(column)), 1e-3), $"{where}: {column} {row[column]}, read {actual:R}");
    }

    [TheoryNeeds<SharedReference>]
    [InlineData("refuse_icon_icosahedral", "icosahedral")]
    [InlineData("refuse_reduced_gaussian", "reduced")]
    [InlineData("ncep_jpeg2000_ll_rcat250", "JPEG 2000")]
    [InlineData("safrica_polarstereo_jpeg2000", "JPEG 2000")]
    public void What_is_not_read_is_refused_by_name_with_what_to_take_instead(string name, string word)
    {
        var refusal = Assert.Throws<BadInputException>(() => GribFiles.Fields(GribFiles.Shared($"grib/{name}.grib2")));
        Assert.Contains(word, refusal.Message, StringComparison.Ordinal);
        Assert.Contains("Take the same fields", refusal.Message, StringComparison.Ordinal);
    }

    private static void Near(double latitude, double longitude, GeoPoint actual, string where)
    {
        var tolerance = where.StartsWith("nae", StringComparison.Ordinal) ? RotatedToleranceDeg : PositionToleranceDeg;
        var apart = Math.Abs(Math.IEEERemainder(actual.LongitudeDeg - longitude, 360)) * Math.Cos(latitude * Math.PI / 180);
        Assert.True(Math.Abs(actual.LatitudeDeg - latitude) <= tolerance && apart <= tolerance, $"{where}: expected {latitude}, {longitude}; got {actual}");
    }
}
