using Glowcast.Engine.Capture;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Tests.Capture;

/// <summary>The tables of Reference/capture, computed by a separate program from the formulas that docs/model.md numbers
/// as Capture 1 to 25; column counts and rectangles were also checked there with rays.</summary>
internal static class CaptureReference
{
    /// <summary>Half a unit of the sixth decimal, which is the last one given, and what doubles lose in between.</summary>
    public const double LastDigit = 5.01e-7;

    public static TheoryData<string> Ids(string table, Func<ReferenceRow, bool>? where = null) =>
        [.. Rows(table).Where(where ?? (_ => true)).Select(row => row["id"])];

    public static ReferenceRow Row(string table, string id) => Rows(table).Single(row => row["id"] == id);

    public static Camera Camera(ReferenceRow row) => new(
        Length.FromMillimetres(row.Number("sensor_w_mm")), Length.FromMillimetres(row.Number("sensor_h_mm")),
        (int)row.Number("px_w"), (int)row.Number("px_h"));

    public static Lens Lens(ReferenceRow row, double aperture = 8) => new(Length.FromMillimetres(row.Number("focal_mm")), aperture);

    public static Orientation Held(ReferenceRow row) => row["orientation"] == "portrait" ? Orientation.Portrait : Orientation.Landscape;

    public static void Near(ReferenceRow row, string column, double actual, double tolerance = LastDigit)
    {
        var off = Math.Abs(actual - row.Number(column));
        Assert.True(off <= tolerance, $"{row["id"]} {column}: expected {row[column]}, got {actual:R}, off by {off:g3}");
    }

    private static IReadOnlyList<ReferenceRow> Rows(string table) => ReferenceData.Rows($"capture/{table}.csv");
}
