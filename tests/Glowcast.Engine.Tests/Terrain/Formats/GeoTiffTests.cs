using BitMiracle.LibTiff.Classic;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Terrain;

namespace Glowcast.Engine.Tests.Terrain;

public class GeoTiffTests
{
    public static TheoryData<string, bool, string, Compression, Predictor> EveryLayout()
    {
        var layouts =
            from order in (string[])["l", "b", "l8"]
            from tiled in (bool[])[false, true]
            from sample in (string[])["i16", "u16", "i32", "u32", "f32", "f64"]
            from compression in (Compression[])[Compression.NONE, Compression.PACKBITS, Compression.LZW, Compression.DEFLATE, Compression.ADOBE_DEFLATE]
            from predictor in (Predictor[])[Predictor.NONE, Predictor.HORIZONTAL, Predictor.FLOATINGPOINT]
            where predictor == Predictor.NONE || compression is not (Compression.NONE or Compression.PACKBITS)
            where predictor != Predictor.HORIZONTAL || sample != "f64"
            where predictor != Predictor.FLOATINGPOINT || sample[0] == 'f'
            // Nothing here writes these rightly.
            where order != "b" || compression != Compression.LZW || predictor == Predictor.NONE
            select (order, tiled, sample, compression, predictor);
        var data = new TheoryData<string, bool, string, Compression, Predictor>();
        foreach (var (order, tiled, sample, compression, predictor) in layouts) data.Add(order, tiled, sample, compression, predictor);
        return data;
    }

    internal static MadeTiff Made(string order, bool tiled, string sample, Compression compression, Predictor predictor)
    {
        var isReal = sample[0] == 'f';
        return new MadeTiff
        {
            ByteOrder = order,
            Tiled = tiled,
            Format = sample[0] switch { 'i' => SampleFormat.INT, 'u' => SampleFormat.UINT, _ => SampleFormat.IEEEFP },
            Bits = int.Parse(sample[1..], System.Globalization.CultureInfo.InvariantCulture),
            Compression = compression,
            Predictor = predictor,
            NoData = sample[0] == 'u' ? "65535" : isReal ? "-3.4e+38" : "-9999",
            Height = (row, column) => row == 3 && column == 5
                ? sample[0] == 'u' ? 65535 : isReal ? -3.4e38 : -9999
                : (sample[0] == 'u' ? 100 : -100) + (17 * row) + (3 * column) + (isReal ? 0.25 : 0),
        };
    }

    [Theory]
    [MemberData(nameof(EveryLayout))]
    public void Every_layout_holds_the_same_heights(string order, bool tiled, string sample, Compression compression, Predictor predictor)
    {
        var made = Made(order, tiled, sample, compression, predictor);

        var grid = Read(made);

        Assert.Equal((MadeTiff.Rows, MadeTiff.Columns, 1), (grid.Posts.Rows, grid.Posts.Columns, grid.Relief.Holes));
        for (var row = 0; row < MadeTiff.Rows; row++)
            for (var column = 0; column < MadeTiff.Columns; column++)
                Assert.Equal(row == 3 && column == 5 ? float.NaN : (float)made.Height(row, column), grid.Row(row)[column]);
    }

    // Values by gdallocationinfo -valonly FILE COLUMN ROW (GDAL 3.6.2), sizes and the lowest and highest by gdalinfo -stats.
    [TheoryNeeds<SharedTiles>]
    [InlineData("bigtujunga_utm11n.tif", 0, 0, 945)]
    [InlineData("bigtujunga_utm11n.tif", 1196, 642, 872)]
    [InlineData("bigtujunga_utm11n.tif", 600, 300, 1201)]
    [InlineData("bigtujunga_utm11n.tif", 128, 127, 1085)]
    [InlineData("bigtujunga_utm11n.tif", 1000, 5, 1646)]
    [InlineData("mongon_utm17s.tif", 0, 0, 1067)]
    [InlineData("mongon_utm17s.tif", 116, 116, 243)]
    [InlineData("mongon_utm17s.tif", 60, 17, 1067)]
    [InlineData("mongon_utm17s.tif", 5, 100, 378)]
    [InlineData("N44W072.hgt", 0, 0, 415)]
    [InlineData("N44W072.hgt", 1200, 1200, 139)]
    [InlineData("N44W072.hgt", 600, 300, 836)]
    [InlineData("N44W072.hgt", 836, 875, 1908)]
    public void Real_files_hold_what_another_reader_finds(string file, int column, int row, double height) =>
        Assert.Equal(height, Shared(file).Row(row)[column]);

    // Middle of the pixel by gdalinfo's origin and pixel size, then
    // echo EAST NORTH | gdaltransform -s_srs EPSG:32611 -t_srs EPSG:4326 -output_xy
    [TheoryNeeds<SharedTiles>]
    [InlineData("bigtujunga_utm11n.tif", 600, 300, 34.326020759514, -118.148654034601, "WGS 84 / UTM zone 11N", 315, 2295)]
    [InlineData("mongon_utm17s.tif", 60, 17, -9.62531496837829, -78.2989010895472, "WGS 84 / UTM zone 17S", 238, 1094)]
    public void Real_files_lie_where_another_reader_puts_them(
        string file, int column, int row, double latitude, double longitude, string crs, double lowest, double highest)
    {
        var grid = Shared(file);
        var point = grid.Posts.ToPoint(column, row);

        Assert.Equal(latitude, point.LatitudeDeg, 1e-9);
        Assert.Equal(longitude, point.LongitudeDeg, 1e-9);
        Assert.Equal(grid.Row(row)[column], grid.HeightAt(GeoPoint.FromDegrees(latitude, longitude))!.Value.Metres, 0.001);
        Assert.Equal(crs, grid.Posts.Crs);
        Assert.Equal((lowest, highest, 0), (grid.Relief.Lowest!.Value.Metres, grid.Relief.Highest!.Value.Metres, grid.Relief.Holes));
    }

    [Fact]
    public void A_pixel_is_an_area_or_a_point()
    {
        var utm = MapProjection.Utm(32, isNorth: true, Spheroid.Wgs84);
        var area = Read(new MadeTiff()).Posts.ToPoint(0, 0);
        var point = Read(new MadeTiff { Keys = MadeTiff.KeysOf((1024, 1), (1025, 2), (3072, 32632)) }).Posts.ToPoint(0, 0);

        Near((500_015, 4_999_985), utm.ToPlane(area.LatitudeDeg, area.LongitudeDeg));
        Near((500_000, 5_000_000), utm.ToPlane(point.LatitudeDeg, point.LongitudeDeg));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_transformation_places_it_whichever_way_rows_run(bool southUp)
    {
        var grid = Read(new MadeTiff
        {
            PixelScale = null,
            Tiepoint = null,
            Matrix = [20, 0, 0, 600_000, 0, southUp ? 25 : -25, 0, 5_100_000, 0, 0, 0, 0, 0, 0, 0, 1],
        });
        var first = MapProjection.Utm(32, isNorth: true, Spheroid.Wgs84).FromPlane(600_010, southUp ? 5_100_012.5 : 5_099_987.5);

        Assert.Equal(25, grid.Posts.CellSize.Metres);
        Assert.Equal(100, grid.HeightAt(GeoPoint.FromDegrees(first.LatitudeDeg, first.LongitudeDeg))!.Value.Metres, 0.001);
        Assert.Equal(southUp ? 100 : 352, grid.Row(MadeTiff.Rows - 1)[0]);
    }

    [Fact]
    public void A_tiepoint_may_stand_anywhere_in_the_raster()
    {
        var atCorner = Read(new MadeTiff()).Posts.ToPoint(4, 7);
        var inside = Read(new MadeTiff { Tiepoint = [10, 20, 0, 500_300, 4_999_400, 0] }).Posts.ToPoint(4, 7);
        Assert.Equal(atCorner.LatitudeDeg, inside.LatitudeDeg, 1e-12);
        Assert.Equal(atCorner.LongitudeDeg, inside.LongitudeDeg, 1e-12);
    }

    [Theory]
    [InlineData(4326, "WGS 84")]
    [InlineData(4258, "ETRS89")]
    [InlineData(4269, "NAD83")]
    public void Geographic_systems_are_named(int code, string name)
    {
        var grid = Read(new MadeTiff { PixelScale = [0.01, 0.01, 0], Tiepoint = [0, 0, 0, 7, 47, 0], Keys = MadeTiff.KeysOf((1024, 2), (1025, 1), (2048, code)) });
        Assert.Equal(name, grid.Posts.Crs);
        Assert.Equal(46.995, grid.Posts.NorthDeg, 1e-12);
        Assert.Equal(7.005, grid.Posts.WestDeg, 1e-12);
    }

    [Theory]
    [InlineData(32601, "WGS 84 / UTM zone 1N")]
    [InlineData(32760, "WGS 84 / UTM zone 60S")]
    [InlineData(25833, "ETRS89 / UTM zone 33N")]
    [InlineData(26919, "NAD83 / UTM zone 19N")]
    public void Utm_is_known_by_its_number(int code, string name) =>
        Assert.Equal(name, Read(new MadeTiff { Keys = MadeTiff.KeysOf((1024, 1), (3072, code)) }).Posts.Crs);

    // Corner of the net in degrees by PROJ 9.1, e.g.
    // echo "1000000 6500000" | gdaltransform -t_srs "+proj=longlat +ellps=GRS80" -output_xy -s_srs "+proj=lcc +lat_0=46.5 +lon_0=3 +lat_1=49 +lat_2=44 +x_0=700000 +y_0=6600000 +ellps=GRS80"
    [Theory]
    [InlineData("lambert", 1_000_000, 6_500_000, 45.5337288446159, 6.84527347744534)]
    [InlineData("albers", 1_900_000, 2_600_000, 44.2098865761402, -71.8936904361781)]
    [InlineData("mercator", 1_500_000, 300_000, 42.6811415819059, -71.5)]
    public void Projections_are_built_from_their_numbers(string which, double east, double north, double latitude, double longitude)
    {
        (int, int)[] Codes(int method) => [(1024, 1), (1025, 2), (2048, 4269), (3072, 32767), (3074, 32767), (3075, method), (3076, 9001)];
        var made = which switch
        {
            "lambert" => new MadeTiff { Keys = MadeTiff.KeysOf(Codes(8), 3085, 3084, 3078, 3079, 3086, 3087), KeyNumbers = [46.5, 3, 49, 44, 700_000, 6_600_000] },
            "albers" => new MadeTiff { Keys = MadeTiff.KeysOf(Codes(11), 3081, 3080, 3078, 3079), KeyNumbers = [23, -96, 29.5, 45.5] },
            _ => new MadeTiff { Keys = MadeTiff.KeysOf(Codes(1), 3081, 3080, 3092, 3082, 3083), KeyNumbers = [42.5, -71.5, 0.99996, 1_500_000, 279_878.735] },
        };
        var grid = Read(made with { Tiepoint = [0, 0, 0, east, north, 0] });
        var corner = grid.Posts.ToPoint(0, 0);
        Assert.Equal(latitude, corner.LatitudeDeg, 1e-6);
        Assert.Equal(longitude, corner.LongitudeDeg, 1e-6);
    }

    [Fact]
    public void Feet_become_metres_and_the_datum_is_named()
    {
        var keys = MadeTiff.KeysOf((1024, 1), (1025, 1), (3072, 32632), (4096, 5703), (4099, 9003));
        var grid = Read(new MadeTiff { Keys = keys, Metadata = """<GDALMetadata><Item name="UNITTYPE" sample="0" role="unittype">US survey foot</Item></GDALMetadata>""" });
        Assert.Equal(100 * 1200 / 3937.0, grid.Row(0)[0], 1e-4);
        Assert.Equal(1, grid.Relief.Holes);
        Assert.Equal("NAVD88", grid.VerticalDatum);
    }

    [Fact]
    public void Scale_and_offset_are_applied()
    {
        var grid = Read(new MadeTiff { Metadata = """<GDALMetadata><Item name="SCALE" sample="0" role="scale">0.1</Item><Item name="OFFSET" sample="0" role="offset">-50</Item></GDALMetadata>""" });
        Assert.Equal(-40, grid.Row(0)[0], 1e-4);
        Assert.Equal(1, grid.Relief.Holes);
    }

    public static TheoryData<string, string> Refused() => new()
    {
        { "british grid", "27700" },
        { "web mercator", "projection method" },
        { "geocentric", "model type 3" },
        { "unknown datum", "EPSG:4230" },
        { "grads", "degrees" },
        { "no keys", "not a GeoTIFF" },
        { "no place", "tiepoint" },
        { "turned", "Warp" },
        { "negative scale", "positive" },
        { "not finite", "finite" },
        { "bytes", "8 bits" },
        { "fathoms", "9014" },
        { "two units", "two different units" },
        { "bad no data", "not a number" },
        { "no data not named", "must say so" },
        { "infinite", "must say so" },
        { "far off", "does not hold" },
        { "bad notes", "damaged" },
        { "beyond the pole", "northDeg" },
    };

    [Theory]
    [MemberData(nameof(Refused))]
    public void What_is_not_understood_is_refused_by_name(string which, string says)
    {
        var usual = new MadeTiff();
        var made = which switch
        {
            "british grid" => usual with { Keys = MadeTiff.KeysOf((1024, 1), (3072, 27700)) },
            "web mercator" => usual with { Keys = MadeTiff.KeysOf((1024, 1), (2048, 4326), (3072, 32767), (3075, 7)) },
            "geocentric" => usual with { Keys = MadeTiff.KeysOf((1024, 3)) },
            "unknown datum" => usual with { Keys = MadeTiff.KeysOf((1024, 2), (2048, 4230)) },
            "grads" => usual with { Keys = MadeTiff.KeysOf((1024, 2), (2048, 4326), (2054, 9105)) },
            "no keys" => usual with { Keys = [] },
            "no place" => usual with { PixelScale = null },
            "turned" => usual with { PixelScale = null, Matrix = [20, 5, 0, 600_000, 5, -20, 0, 5_100_000, 0, 0, 0, 0, 0, 0, 0, 1] },
            "negative scale" => usual with { PixelScale = [30, -30, 0] },
            "not finite" => usual with { Tiepoint = [0, 0, 0, double.NaN, 5_000_000, 0] },
            "bytes" => usual with { Bits = 8, Height = (row, _) => row },
            "fathoms" => usual with { Keys = MadeTiff.KeysOf((1024, 1), (3072, 32632), (4099, 9014)) },
            "two units" => usual with
            {
                Keys = MadeTiff.KeysOf((1024, 1), (3072, 32632), (4099, 9001)),
                Metadata = """<GDALMetadata><Item role="unittype">ft</Item></GDALMetadata>""",
            },
            "bad no data" => usual with { NoData = "none" },
            "no data not named" => usual with { NoData = null, Height = (row, _) => row == 0 ? -32768 : 5 },
            "infinite" => usual with { Format = SampleFormat.IEEEFP, Bits = 32, Height = (row, _) => row == 9 ? double.PositiveInfinity : 5 },
            "far off" => usual with { Tiepoint = [0, 0, 0, 9_000_000, 5_000_000, 0] },
            "bad notes" => usual with { Metadata = "<GDALMetadata><Item" },
            _ => usual with { Keys = MadeTiff.KeysOf((1024, 2), (2048, 4326)) },
        };
        var refusal = Assert.Throws<BadInputException>(() => Read(made));
        Assert.Contains(says, refusal.Message, StringComparison.Ordinal);
        Assert.All(refusal.Faults, fault => Assert.Equal("made.tif", fault.Field));
    }

    private static void Near((double East, double North) expected, (double East, double North) found)
    {
        Assert.Equal(expected.East, found.East, 1e-4);
        Assert.Equal(expected.North, found.North, 1e-4);
    }

    private static ElevationGrid Read(MadeTiff made)
    {
        using var stream = made.Write();
        return GridFile.Read(stream, "made.tif");
    }

    private static ElevationGrid Shared(string file)
    {
        using var stream = File.OpenRead(SharedData.Path("terrain/" + file));
        return GridFile.Read(stream, file);
    }
}
