using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;

namespace Glowcast.Server.Tests.Api;

public class TakesApiTests(Service service)
{
    [Fact]
    public async Task A_posted_take_is_sorted_by_its_plan()
    {
        var answer = await PostAsync(Take()).JsonAsync();
        var sets = answer["sets"]!.AsArray();
        Assert.Equal(["a01.dng", "a10.dng"], sets.Select(set => set!["first"]!.GetValue<string>()));
        Assert.All(sets, set => Assert.Equal(9, set!["frames"]!.GetValue<int>()));
        Assert.Equal("frameOffset", answer["clock"]!["source"]!.GetValue<string>());
        Assert.Equal("2026-02-14T11:45:00.0Z", sets[0]!["start"]!.GetValue<string>());
    }

    [Fact]
    public async Task The_cloud_of_the_plan_is_moved_by_the_times_really_shot_in()
    {
        var take = Take();
        take["plan"]!["conditions"] = new JsonObject { ["cloudSpeedMs"] = 5, ["cloudDistanceKm"] = 20 };
        var cloud = (await PostAsync(take).JsonAsync())["sets"]![0]!["cloud"]!;
        // 135 mm over 36 mm / 8256 px is 30960 px a radian; 5 m/s for 4.02 s at 20 km is 0.001005 of one (docs/model.md, Capture eq. 18).
        Assert.Equal(30960 * Math.Atan(5 * 4.02 / 20_000), cloud["sidewaysPx"]!.GetValue<double>(), 0.1);
        Assert.Null(cloud["betweenRowsPx"]);
    }

    [Fact]
    public async Task A_known_frame_and_a_typed_error_set_the_clock()
    {
        var known = Take();
        known["knownFrame"] = new JsonObject { ["name"] = "a01.dng", ["shotAt"] = "2026-02-14T12:00:00Z" };
        Assert.Equal("2026-02-14T12:00:00.0Z", (await PostAsync(known).JsonAsync())["sets"]![0]!["start"]!.GetValue<string>());
        var typed = Take();
        typed["clockErrorS"] = 60;
        Assert.Equal("2026-02-14T11:44:00.0Z", (await PostAsync(typed).JsonAsync())["sets"]![0]!["start"]!.GetValue<string>());
    }

    [Fact]
    public async Task An_error_of_a_clock_that_nothing_tells_of_is_said_to_be_of_no_use()
    {
        var take = Take();
        take["clockErrorS"] = 60;
        Assert.Empty((await PostAsync(take).JsonAsync())["cautions"]!.AsArray());
        foreach (var frame in take["frames"]!.AsArray()) frame!.AsObject().Remove("offsetFromUtc");
        var answer = await PostAsync(take).JsonAsync();
        Assert.Null(answer["clock"]);
        Assert.Contains("how far that clock is from UTC", Assert.Single(answer["cautions"]!.AsArray())!.GetValue<string>(), StringComparison.Ordinal);
    }

    // A camera without seconds, or a clock that stood still: no rhythm, and no drift that is a number.
    [Fact]
    public async Task Frames_of_one_instant_are_an_answer()
    {
        var take = Take();
        foreach (var frame in take["frames"]!.AsArray()) frame!["taken"] = "2026-02-14T06:45:00";
        var answer = await PostAsync(take).JsonAsync();
        Assert.InRange(answer["sets"]!.AsArray().Sum(set => set!["frames"]!.GetValue<int>()), 0, take["frames"]!.AsArray().Count);
    }

    [Fact]
    public async Task A_border_moved_by_hand_stands()
    {
        var take = Take();
        take["borders"] = JsonNode.Parse("""{ "sets": [{ "first": "a01.dng", "last": "a04.dng" }], "loose": ["a02.dng"] }""");
        var set = (await PostAsync(take).JsonAsync())["sets"]![0]!;
        Assert.True(set["isByHand"]!.GetValue<bool>());
        Assert.Equal(3, set["frames"]!.GetValue<int>());
    }

    [Fact]
    public async Task All_faults_are_said_under_their_fields()
    {
        var take = Take();
        take["frames"]![1]!["taken"] = "noon";
        take["frames"]![2]!["exposureS"] = -1;
        take["frames"]![3]!["name"] = "a01.dng";
        take["frames"]![4]!["glance"] = new JsonArray(1, 2);
        take["frames"]![5]!["pixelsWide"] = 0;
        take["frames"]![5]!["pixelsHigh"] = -4;
        take["frames"]![6]!["gpsTime"] = "noon";
        take["plan"]!["set"]!["overlap"] = 2;
        Assert.Equal(
            ["frames", "frames[1].taken", "frames[2].exposureS", "frames[4].glance", "frames[5].pixelsHigh", "frames[5].pixelsWide", "frames[6].gpsTime", "plan.set.overlap"],
            (await PostAsync(take).FaultsAsync()).Keys.Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Faults_of_shape_and_of_value_are_all_said_at_once()
    {
        var faults = await PostAsync("""
            {
              "frames": [null, 5, { "name": 7, "taken": 8, "exposureS": "long", "lie": 1.5, "glance": "bright", "colour": "red" }, { "taken": "noon" }, { "name": "", "iso": -1 }],
              "plan": { "set": { "overlap": "half" } }, "borders": { "sets": [{ "first": 1 }], "loose": [2], "more": 3 }, "forecast": 4, "keep": "yes", "clockErrorS": "late",
              "knownFrame": { "shotAt": "noon" }, "more": 1
            }
            """).FaultsAsync();
        Assert.Equal(
            [
                "borders.loose", "borders.more", "borders.sets[0].first", "borders.sets[0].last", "clockErrorS", "forecast", "frames[0]", "frames[1]", "frames[2].colour", "frames[2].exposureS", "frames[2].glance",
                "frames[2].lie", "frames[2].name", "frames[2].taken", "frames[3].name", "frames[3].taken", "frames[4].iso", "frames[4].name", "keep", "knownFrame.name", "knownFrame.shotAt", "more",
                "plan.camera.pixelsHigh", "plan.camera.pixelsWide", "plan.camera.sensorHeightMm", "plan.camera.sensorWidthMm", "plan.lens.focalLengthMm", "plan.set.overlap", "plan.span.fromDeg", "plan.span.toDeg",
            ],
            faults.Keys.Order(StringComparer.Ordinal));
        Assert.Equal("Must be a number; got \"long\".", faults["frames[2].exposureS"]);
        Assert.Contains("here stand name, taken,", faults["frames[2].colour"], StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_take_with_thousands_of_faults_is_not_answered_with_thousands()
    {
        var manyFrames = await PostAsync($$"""{ "frames": [{{string.Join(',', Enumerable.Repeat("""{ "iso": 0 }""", 4000))}}] }""").FaultsAsync();
        Assert.InRange(manyFrames.Count, 100, 300);
        Assert.Contains("put these right first", manyFrames["frames"], StringComparison.Ordinal);
        var manyFields = await PostAsync($$"""{ "frames": [{ "name": "a", {{string.Join(',', Enumerable.Range(0, 4000).Select(i => $"\"f{i}\": 1"))}} }] }""").FaultsAsync();
        Assert.Equal(21, manyFields.Count);
        Assert.Equal("Has 3980 more fields that are not known.", manyFields["frames[0]"]);
        var manySets = await PostAsync($$"""{ "frames": [], "borders": { "sets": [{{string.Join(',', Enumerable.Repeat(1, 5001))}}], "loose": [] } }""").FaultsAsync();
        Assert.Equal(["borders.sets"], manySets.Keys);
    }

    [Fact]
    public async Task The_description_shows_the_fields_that_are_read()
    {
        var faults = await PostAsync("""{ "frames": [{ "name": "a", "x": 1 }], "borders": { "sets": [{ "first": "a", "last": "a", "x": 1 }], "loose": [], "x": 1 }, "knownFrame": { "name": "a", "shotAt": "2026-02-14T12:00:00Z", "x": 1 }, "x": 1 }""").FaultsAsync();
        var schemas = (await service.GetAsync("/openapi/v1.json").JsonAsync())["components"]!["schemas"]!;
        foreach (var (field, schema) in new[] { ("x", "PostedTake"), ("frames[0].x", "PostedFrame"), ("borders.x", "PostedBorders"), ("borders.sets[0].x", "PostedSet"), ("knownFrame.x", "KnownFrame") })
            Assert.Equal(
                schemas[schema]!["properties"]!.AsObject().Select(property => property.Key).Order(StringComparer.Ordinal),
                faults[field].Split("here stand ")[1].TrimEnd('.').Split(", ").Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task What_is_far_too_long_is_not_sent_back_in_full()
    {
        var (take, far) = (Take(), new string('f', 5000));
        foreach (var field in (string[])["name", "taken", "offsetFromUtc", "gpsTime", "camera", "whiteBalance"]) (take["frames"]![0]![field], take["frames"]![1]![field]) = (far, far);
        take["knownFrame"] = new JsonObject { ["name"] = "gone" + far, ["shotAt"] = far };
        var faults = await PostAsync(take).FaultsAsync();
        Assert.Equal(15, faults.Count);
        Assert.All(faults, fault => Assert.True(fault.Value.Length < 300, fault.Value));
    }

    [Theory]
    [InlineData("{}", "frames")]
    [InlineData("[]", "body")]
    [InlineData("""{ "frames": [null] }""", "frames[0]")]
    [InlineData("""{ "frames": [{ "name": 7 }] }""", "frames[0].name")]
    [InlineData("""{ "frames": [], "borders": { "sets": [null], "loose": [] } }""", "borders.sets[0]")]
    [InlineData("""{ "frames": [], "borders": { "sets": [], "loose": [null] } }""", "borders.loose")]
    [InlineData("""{ "frames": [], "plan": [] }""", "plan")]
    [InlineData("""{ "frames": [{ "name": "a", "taken": "9999-12-31T23:59:59", "offsetFromUtc": "-18:00" }] }""", "frames[0].taken")]
    [InlineData("""{ "frames": [{ "name": "a", "taken": "1900-01-01T00:00:00", "gpsTime": "9999-12-31T23:59:59Z" }] }""", "frames[0].gpsTime")]
    [InlineData("""{ "frames": [{ "name": "a", "taken": "2200-01-01T00:00:00", "gpsTime": "-9998-01-01T00:00:00Z" }] }""", "frames[0].gpsTime")]
    public async Task A_fault_of_shape_is_said_under_its_field_and_in_no_words_of_the_code(string text, string field)
    {
        var (name, message) = Assert.Single(await PostAsync(text).FaultsAsync());
        Assert.Equal(field, name);
        Assert.DoesNotContain("Glowcast.Server", message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_known_frame_that_is_none_and_its_instant_that_is_none_are_both_named()
    {
        var faults = await PostAsync("""{ "frames": [{ "name": "a" }], "knownFrame": { "name": "b", "shotAt": "noon" } }""").FaultsAsync();
        Assert.Equal(["knownFrame.name", "knownFrame.shotAt"], faults.Keys.Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task A_field_given_twice_is_named_in_no_words_of_the_code()
    {
        var (field, message) = Assert.Single(await PostAsync("""{ "frames": [], "frames": [] }""").FaultsAsync());
        Assert.Equal("body", field);
        Assert.Contains("'frames'", message, StringComparison.Ordinal);
        Assert.DoesNotContain("deserialization", message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Brightness_beyond_all_numbers_is_not_said_to_be_the_wrong_count()
    {
        var glance = string.Join(',', Enumerable.Repeat("1e39", 192));
        var (field, message) = Assert.Single(await PostAsync($$"""{ "frames": [{ "name": "a", "glance": [{{glance}}] }] }""").FaultsAsync());
        Assert.Equal("frames[0].glance", field);
        Assert.Contains("none beyond", message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("[]")]
    [InlineData("not JSON")]
    [InlineData("""{ "frames": [ { "taken": "2026-02-14T06:45:00" } ] }""")]
    [InlineData("""{ "frames": [], "more": 1 }""")]
    [InlineData("null")]
    public async Task What_is_no_take_is_refused(string text) => Assert.NotEmpty(await PostAsync(text).FaultsAsync());

    [Fact]
    public async Task A_take_of_more_frames_than_are_sorted_here_is_refused()
    {
        var frames = string.Join(',', Enumerable.Range(0, 5001).Select(i => $$"""{"name":"{{i}}"}"""));
        Assert.Equal(["frames"], (await PostAsync($$"""{"frames":[{{frames}}]}""").FaultsAsync()).Keys);
    }

    private static JsonObject Take() => new JsonObject
    {
        ["plan"] = JsonNode.Parse("""
            {
              "span": { "fromDeg": 245, "toDeg": 330 },
              "camera": { "sensorWidthMm": 36, "sensorHeightMm": 24, "pixelsWide": 8256, "pixelsHigh": 5504 },
              "lens": { "focalLengthMm": 135 },
              "set": { "columns": 7, "rows": 1, "spareFrames": 1, "markerS": 0 }
            }
            """),
        // Nine frames 4.02 s apart, and the repeat 20 s later.
        ["frames"] = new JsonArray([.. Enumerable.Range(0, 18).Select(i => new JsonObject
        {
            ["name"] = $"a{i + 1:00}.dng",
            ["taken"] = new DateTime(2026, 2, 14, 6, 45, 0).AddSeconds((i * 4.02) + (i / 9 * 20)).ToString("yyyy-MM-dd'T'HH:mm:ss.fff", CultureInfo.InvariantCulture),
            ["offsetFromUtc"] = "-05:00",
            ["exposureS"] = 0.02,
        })]),
    };

    private Task<HttpResponseMessage> PostAsync(JsonObject take) => PostAsync(take.ToJsonString());

    private Task<HttpResponseMessage> PostAsync(string text) => service.Client.PostAsync(
        new Uri("/api/takes", UriKind.Relative), new StringContent(text, Encoding.UTF8, "application/json"), TestContext.Current.CancellationToken);
}
