using System.IO.Compression;
using System.Text;
using System.Text.Json;
using BitMiracle.LibJpeg.Classic;
using BitMiracle.LibTiff.Classic;
using Glowcast.Cli.Takes;
using Glowcast.Engine.Forecast;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Take;
using Glowcast.Engine.Terrain;
using Glowcast.Engine.Tests.Take;
using Glowcast.Engine.Tests.Terrain;
using Glowcast.Engine.Tests.Weather;
using Glowcast.Engine.Weather;
using Glowcast.Server;
using Glowcast.Server.Answers;
using Glowcast.Server.Api;
using Glowcast.Server.Grids;
using Glowcast.Server.Kept;
using Glowcast.Server.Notes;
using Glowcast.Server.Problems;
using Glowcast.Server.Safety;
using Glowcast.Server.Store;
using Glowcast.Server.Takes;
using Microsoft.AspNetCore.Http;
using Microsoft.Net.Http.Headers;

namespace Glowcast.Fuzz;

/// <summary>Every reader of what others wrote.</summary>
internal static class Targets
{
    private static readonly string[] Numbers = ["-9999", "99999", "1e308", "-1e-308", "NaN", "inf", "0", "-0", ".", "e", "+", "2147483648", "9223372036854775808", "0.1", "\n", " "];
    private static readonly string[] Json = [.. Numbers, "null", "true", "{}", "[]", "\"\"", "\\u0000", "\\ud800", "[[[[", ",", ":", "\"", "1900-01-01", "Z"];

    public static IReadOnlyList<Target> All { get; } =
    [
        new("tiff", () => [.. Tiffs()], bytes => Grid(bytes, "made.tif"), 12_000, 96L << 20, "II*\0", "MM\0*", "<GDALMetadata>", "<Item role=\"unittype\">", "</Item>", "-9999\0"),
        new("notes", () => [Text("<GDALMetadata><Item name=\"SCALE\" sample=\"0\" role=\"scale\">0.1</Item><Item role=\"unittype\">m</Item></GDALMetadata>")], bytes => GdalItem.Read(Encoding.Latin1.GetString(bytes), "made"), 2000, 8L << 20, "<Item ", "/>", "<![CDATA[", "]]>", "<!--", "<!DOCTYPE a [", "&lt;", "&#0;", "<a>"),
        new("dted", () => [MadeDted.Write((row, column) => MadeDted.SignAndMagnitude(row - column))], bytes => Grid(bytes, "made.dt1"), 16_000),
        new("asc", () => [Text("ncols 4\nnrows 3\nxllcorner 7.5\nyllcorner 46\ncellsize 0.01\nNODATA_value -9999\n1 2 3 4\n5 6 -9999 8\n9 10.5 11 12\n"), Text("ncols 2\nnrows 2\nxllcenter 7\nyllcenter 46\ndx 0.1\ndy 0.2\n1 2\n3 4")], bytes => Grid(bytes, "made.asc"), 1000, 16L << 20, [.. Numbers, "ncols ", "nrows ", "cellsize ", "xllcorner ", "yllcenter ", "nodata_value "]),
        new("zip", () => [Zipped("N46E007.hgt", new byte[2 * 1201 * 1201]), Zipped("N46E007.hgt", new byte[100]), Zipped("a.txt", [1])], bytes => Grid(bytes, "tile.zip"), 6000, 64L << 20, "PK\u0001\u0002", "PK\u0003\u0004", "PK\u0005\u0006", "PK\u0006\u0006", "PK\u0006\u0007", ".hgt"),
        new("hgt", () => [[12, .. "N46E007.hgt"u8, 1, 2, 3, 4]], Hgt, 200, 64L << 20, "S90W180.hgt", "N89E179.hgt", "\u0080\0"),
        new("exif", () => [.. Pictures()], bytes => FrameReader.Read(new MemoryStream(bytes, writable: false), "made"), 6000, 64L << 20, "Exif\0\0", "II*\0", "MM\0*", "moov", "uuid", "CMT1", "meta", "iinf", "infe", "iloc", "eXIf", "\u00ff\u00d8\u00ff\u00e1"),
        new("jpeg", () => [Jpeg(isProgressive: false), Jpeg(isProgressive: true)], bytes => FrameReader.Thumbnail(new MemoryStream(bytes, writable: false), "made", 1 << 20), 4000, 200L << 20, "\u00ff\u00da", "\u00ff\u00c0", "\u00ff\u00c2", "\u00ff\u00c4", "\u00ff\u00dd", "\u00ff\u00d9"),
        new("sounding", () => [.. MadeSoundings.All.Select(made => Text(made.Text))], Sounding, 6000, 64L << 20, [.. Numbers, "TTAA ", "TTBB ", "TTCC", "21212 ", "=", "/////", "PRES", "%RAW%", "%END%", ",,,", "m/s"]),
        new("plan", () => [Text(Plan)], ReadPlan, 4000, 32L << 20, Json),
        new("take", () => [Text(Glowcast.Server.Api.Examples.Take), Text($$"""{"plan":{{Plan}},"borders":{"sets":[{"first":"a","last":"b"}],"loose":["a"]},"clockErrorS":3,"frames":[{"name":"a","taken":"2026-02-14T06:45:00"},{"name":"b","taken":"2026-02-14T06:45:05"}]}""")], ReadTake, 4000, 64L << 20, Json),
        new("borders", () => [Text("""{ "sets": [{ "first": "IMG_0102.CR3", "last": "IMG_0121.CR3" }], "loose": ["IMG_0110.CR3"] }""")], bytes => BordersFile.Of(bytes, "made"), 500, 8L << 20, Json),
        new("form", () => [Text("--a\r\nContent-Disposition: form-data; name=f; filename=a.jpg\r\n\r\nabc\r\n--a--\r\n")], ReadForm, 2000, 64L << 20, "--a", "--a--", "\r\n", "filename*=UTF-8''", "Content-Disposition: form-data;", "\"", ":"),
        new("grib", () => [.. Gribs()], Grib, 12_000, 256L << 20, "GRIB", "7777", "\0\0\0\u0010", "\u00ff\u00ff\u00ff\u00ff"),
        new("station", () => [File.ReadAllBytes(Reference("igra/ZZM00099001-edge.txt"))], Station, 4000, 64L << 20, [.. Numbers, "#ZZM00099001 ", "-9999", "-8888", "PK\u0003\u0004"]),
        new("kept", () => [Text($$"""{"name":"a","plan":{{Plan}}}"""), Text("""{"name":"a","lookout":{"latitudeDeg":46,"longitudeDeg":7}}"""), Text("""{"name":"a","gear":{"camera":{"sensorWidthMm":36,"sensorHeightMm":24,"pixelsWide":8256,"pixelsHigh":5504},"lens":{"focalLengthMm":135,"aperture":8}}}""")], Kept, 4000, 32L << 20, [.. Json, "\"name\":", "\"plan\":", "\"gear\":", "\"sounding\":"]),
        new("note", () => [Text("""{"forecast":"ab","window":0,"firstLight":"2026-02-14T06:45:00Z","lastLight":null,"deckTopM":900,"set":"whole","text":"a"}""")], Note, 1000, 16L << 20, [.. Json, "\"window\":", "2026-02-14T06:45:00+01:00"]),
        new("condition", () => [Text("\"a\""), Text("W/\"a\", \"b\""), Text("*")], Condition, 200, 8L << 20, "\"", "W/", "*", ","),
        new("address", () => [Text("http://127.0.0.1:5210"), Text("http://[::1]:0;http://localhost:80"), Text("http://*:5210")], Address, 100, 8L << 20, "http://", "127.0.0.1", "localhost", "[::1]", "#", "?", "@", ":", "0x7f", "[::ffff:127.0.0.1]", "%", ";", "\\"),
        new("ledger", () => [Text("\n{\"id\":\"a\",\"name\":\"b.asc\",\"bytes\":12}\n\n{\"id\":\"a\",\"name\":\"b\",\"bytes\":1,\"held\":\"x\",\"isDeleted\":true}\n")], Ledger, 1000, 16L << 20, Json),
        new("backup", () => [Backup()], Restore, 8000, 256L << 20, "PK\u0001\u0002", "PK\u0003\u0004", "PK\u0005\u0006", "SQLite format 3\0", "grids/"),
    ];

    private const string Plan = """
        {"lookout":{"latitudeDeg":46.37,"longitudeDeg":-31.22,"eyeHeightM":1.7,"timeZone":"Atlantic/Azores"},"grids":["N46W032.hgt"],"date":"2026-10-24",
        "span":{"fromDeg":248,"toDeg":322,"ridgeFromKm":10,"verticalDeg":18},"camera":{"sensorWidthMm":36,"sensorHeightMm":24,"pixelsWide":8256,"pixelsHigh":5504},
        "lens":{"focalLengthMm":135,"aperture":8},"set":{"orientation":"portrait","overlap":0.35,"rowOverlap":0.35,"columns":null,"rows":2,"spareFrames":1,"repeats":1,"rowOrder":"oneWay"},
        "conditions":{"visibilityKm":120,"deckTopM":null,"sounding":null,"refractionK":0.13},"thresholds":{"crestBandDeg":0.5,"columnsLit":0.9}}
        """;

    public static Target Of(string name) => All.Single(target => target.Name == name);

    private static byte[] Text(string text) => Encoding.UTF8.GetBytes(text);

    private static void Grid(byte[] bytes, string name) => GridFile.Read(new MemoryStream(bytes, writable: false), name);

    private static IEnumerable<byte[]> Tiffs()
    {
        yield return new MadeTiff().Write().ToArray();
        yield return new MadeTiff { ByteOrder = "b", Tiled = true, Compression = Compression.LZW }.Write().ToArray();
        yield return new MadeTiff { Compression = Compression.DEFLATE, Predictor = Predictor.HORIZONTAL, Metadata = "<GDALMetadata><Item role=\"unittype\">m</Item></GDALMetadata>" }.Write().ToArray();
        yield return new MadeTiff { ByteOrder = "l8", Tiled = true, Format = SampleFormat.IEEEFP, Bits = 32, Compression = Compression.DEFLATE, Predictor = Predictor.FLOATINGPOINT }.Write().ToArray();
        yield return new MadeTiff { Compression = Compression.PACKBITS, Mask = (row, column) => row != column }.Write().ToArray();
        yield return new MadeTiff { Compression = Compression.LZW, Mask = (row, column) => row > column, MaskBits = 8, NoData = null }.Write().ToArray();
        yield return new MadeTiff { Keys = MadeTiff.KeysOf([(1024, 1), (2048, 4258), (3072, 32767), (3075, 8)], 3085, 3084, 3078, 3079, 3086, 3087), KeyNumbers = [46.5, 3, 49, 44, 700_000, 6_600_000], Tiepoint = [0, 0, 0, 800_000, 6_500_000, 0] }.Write().ToArray();
    }

    private static IEnumerable<byte[]> Pictures()
    {
        var tiff = MadeTags.OfShot();
        var jpeg = MadeContainers.Jpeg(tiff);
        return
        [
            tiff, MadeTags.OfShot(isLittle: false), MadeTags.OfShot(version: 0x4F52), jpeg, MadeContainers.Raf(jpeg), MadeContainers.WebP(tiff), MadeContainers.Heif(tiff),
            MadeContainers.Png(("IHDR", new byte[13]), ("eXIf", tiff), ("IEND", [])), [.. "IIU\0"u8, .. MadeTags.Of((0x2E, jpeg)).AsSpan(4)],
            MadeContainers.Cr3(MadeTags.Of((0x010F, "Maker")), MadeTags.Of([.. MadeTags.Exposure]), MadeTags.Of([.. MadeTags.Place])),
        ];
    }

    private static byte[] Jpeg(bool isProgressive)
    {
        var stream = new MemoryStream();
        var encoder = new jpeg_compress_struct(new jpeg_error_mgr());
        encoder.jpeg_stdio_dest(stream);
        (encoder.Image_width, encoder.Image_height, encoder.Input_components, encoder.In_color_space) = (48, 36, 3, J_COLOR_SPACE.JCS_RGB);
        encoder.jpeg_set_defaults();
        if (isProgressive) encoder.jpeg_simple_progression();
        encoder.jpeg_start_compress(true);
        for (var y = 0; y < 36; y++) encoder.jpeg_write_scanlines([[.. Enumerable.Range(0, 3 * 48).Select(x => (byte)((x * x) + (3 * y)))]], 1);
        encoder.jpeg_finish_compress();
        return stream.ToArray();
    }

    private static byte[] Zipped(string name, byte[] content)
    {
        var stream = new MemoryStream();
        using (var archive = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        using (var entry = archive.CreateEntry(name, CompressionLevel.SmallestSize).Open()) entry.Write(content);
        return stream.ToArray();
    }

    // How long the name is, the name, and either all there is or, now and then since it takes long, how a whole tile begins; the rest is level.
    private static void Hgt(byte[] bytes)
    {
        var letters = Math.Min(bytes.Length == 0 ? 0 : bytes[0] % 64, bytes.Length - 1);
        if (letters < 0) return;
        var rest = bytes.AsSpan(1 + letters);
        using var tile = new MemoryStream(rest.Length % 64 != 0 ? rest.ToArray() : Begun(rest), writable: false);
        GridFile.Read(tile, Encoding.Latin1.GetString(bytes, 1, letters));
    }

    private static byte[] Begun(ReadOnlySpan<byte> begin)
    {
        Array.Clear(Tile);
        begin.CopyTo(Tile);
        return Tile;
    }

    private static readonly byte[] Tile = new byte[2 * 1201 * 1201];

    private static void Sounding(byte[] bytes)
    {
        var diagnosis = CloudDiagnosis.Of(Profile.Read(Encoding.UTF8.GetString(bytes), "made"));
        var levels = diagnosis.Profile.Levels;
        for (var i = 1; i < levels.Count; i++)
            if (!(levels[i].HeightM > levels[i - 1].HeightM && levels[i].PressureHPa < levels[i - 1].PressureHPa && levels[i].DepressionC >= 0)) throw new InvalidDataException("A profile that is none.");
        if (diagnosis.Reasons.Any(reason => !double.IsFinite((reason.DepressionC ?? 0) + (reason.StrengthC ?? 0) + (reason.WindKt ?? 0)))) throw new InvalidDataException("A reason that is not finite.");
        diagnosis.LookoutAt(Length.FromMetres(1000));
    }

    private static void ReadPlan(byte[] bytes)
    {
        var plan = PlanReader.Read(new MemoryStream(bytes, writable: false), bytes.Length % 2 == 0 ? PlanNeeds.Forecast : PlanNeeds.Gear);
        PlannedSet.Of(plan);
    }

    private static void ReadTake(byte[] bytes)
    {
        using var body = PlanText.Parse(bytes, "body");
        if (body.RootElement.ValueKind != JsonValueKind.Object) return;
        var faults = new Faults();
        var take = PostedTakes.Read(body.RootElement, new NamedSounding(null), faults);
        take.ReadClock(null, faults);
        faults.ThrowIfAny();
        if (take.Frames.Count > 12) return;
        if (take.Set is { } set) TakeSorter.Sort(take.Frames, set.Clock, set.Layout.Settings.Overlap, take.Borders);
        else TakeSorter.Sort(take.Frames, borders: take.Borders);
    }

    private static void ReadForm(byte[] bytes)
    {
        var request = new DefaultHttpContext().Request;
        (request.ContentType, request.Body) = ("multipart/form-data; boundary=a", new MemoryStream(bytes, writable: false));
        using var memory = new ReadersMemory(new ServerOptions());
        using var turns = new Turns(1, 1);
        try
        {
            FrameHeads.ReadAsync(request, turns, memory, CancellationToken.None).GetAwaiter().GetResult();
        }
        catch (BadHttpRequestException)
        {
        }
    }

    private static string Reference(string path) => Path.Combine(AppContext.BaseDirectory, "Reference", path);

    private static IEnumerable<byte[]> Gribs() =>
        Directory.EnumerateFiles(Reference("."), "*.grib2", SearchOption.AllDirectories).Order(StringComparer.Ordinal).Where(file => new FileInfo(file).Length < 5000).Select(File.ReadAllBytes);

    private static void Grib(byte[] bytes)
    {
        foreach (var field in GribSet.Of([GribSource.InMemory("made", bytes)]).Fields.Take(8))
        {
            // Of a field that is damaged the others are read.
            try
            {
                var values = field.Values();
                field.Grid.ValueAt(values, GeoPoint.FromDegrees(46, 7));
                field.Grid.PointAt(field.Grid.Ni - 1, field.Grid.Nj - 1);
            }
            catch (BadInputException)
            {
            }
        }
    }

    private static void Station(byte[] bytes)
    {
        foreach (var month in StationClimate.Read(new MemoryStream(bytes, writable: false), "made", Length.FromMetres(700), 20, null, CancellationToken.None).Months)
            if (month.Usable > month.Soundings || month.Below > month.Usable) throw new InvalidDataException("More flights than there are.");
    }

    private static void Kept(byte[] bytes)
    {
        using var body = PlanText.Parse(bytes, "body");
        DocumentKind[] kinds = [DocumentKind.Plans, DocumentKind.Lookouts, DocumentKind.Gear, DocumentKind.Soundings];
        var refused = 0;
        foreach (var kind in kinds)
        {
            try
            {
                DocumentBody.Read("a", body.RootElement, kind, new NamedSounding(null));
            }
            catch (BadInputException)
            {
                refused++;
            }
        }
        if (refused < kinds.Length - 1) throw new InvalidDataException("One thing of several kinds.");
    }

    private static void Note(byte[] bytes)
    {
        using var body = PlanText.Parse(bytes, "body");
        NoteReader.ForecastIn(body.RootElement);
        var note = NoteReader.Read(body.RootElement, Forecast, NodaTime.Instant.FromUnixTimeSeconds(1_800_000_000));
        JsonSerializer.Deserialize<FieldNote>(JsonSerializer.SerializeToUtf8Bytes(note, AnswerJson.Options), AnswerJson.Options);
    }

    private static readonly JsonElement Forecast = JsonDocument.Parse("""
        {"lookout":{"latitudeDeg":46,"longitudeDeg":7},"date":"2026-02-14","cloud":{"deckTopM":900},"fit":{"verdict":"fits"},
        "windows":[{"start":"2026-02-14T06:40:00Z","end":"2026-02-14T07:10:00Z"}]}
        """).RootElement;

    private static void Condition(byte[] bytes)
    {
        var text = Encoding.Latin1.GetString(bytes);
        var present = new EntityTagHeaderValue("\"present\"");
        var isAllowed = new WriteCondition(new HeaderDictionary { [HeaderNames.IfMatch] = text }).Allows(present);
        if (isAllowed && !text.Contains("present", StringComparison.Ordinal) && !text.Contains('*', StringComparison.Ordinal)) throw new InvalidDataException("Allowed by a tag that it has not.");
    }

    private static void Address(byte[] bytes)
    {
        var read = ListenAddresses.Read(Encoding.UTF8.GetString(bytes));
        if (read.IsThisMachineOnly && !read.Urls.All(ListenAddresses.IsOfThisMachine)) throw new InvalidDataException("Taken for this machine's own.");
    }

    private static void Ledger(byte[] bytes)
    {
        File.WriteAllBytes(Path.Combine(Scratch, GridLedger.FileName), bytes);
        var ledger = new GridLedger(Scratch);
        ledger.Of("a");
        ledger.OfHeld("x");
    }

    private static byte[] Backup()
    {
        var (folder, file) = (Path.Combine(Scratch, "kept"), Path.Combine(Scratch, "seed.zip"));
        File.Delete(file);
        if (Directory.Exists(folder)) Directory.Delete(folder, recursive: true);
        using (DataFolder.Open(folder)) { }
        Server.Store.Backup.Write(folder, file);
        return File.ReadAllBytes(file);
    }

    private static void Restore(byte[] bytes)
    {
        var (file, folder) = (Path.Combine(Scratch, "backup.zip"), Path.Combine(Scratch, "restored"));
        File.WriteAllBytes(file, bytes);
        if (Directory.Exists(folder)) Directory.Delete(folder, recursive: true);
        Server.Store.Backup.Restore(file, folder);
    }

    private static string Scratch { get; } = Directory.CreateDirectory(Path.Combine("/dev/shm", $"glowcast-fuzz-{Environment.ProcessId}")).FullName;
}
