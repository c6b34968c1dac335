using System.Net;
using System.Text.Json;
using System.Text.Json.Nodes;
using Glowcast.Server.Api;

namespace Glowcast.Server.Tests.Api;

public class DocumentApiTests(Service service)
{
    public static TheoryData<string, string, string> Kinds => new()
    {
        { "lookouts", "lookout", """{ "latitudeDeg": 46.5, "longitudeDeg": 7.5, "eyeHeightM": 2, "timeZone": "Europe/Zurich" }""" },
        { "gear", "gear", """{ "camera": { "sensorWidthMm": 36, "sensorHeightMm": 24, "pixelsWide": 8256, "pixelsHigh": 5504 }, "lens": { "focalLengthMm": 135 }, "set": { "rows": 2 } }""" },
        { "plans", "plan", MadeValley.Plan().ToJsonString() },
        { "soundings", "sounding", JsonSerializer.Serialize(Examples.Sounding) },
    };

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task What_is_put_can_be_got_listed_changed_and_deleted(string path, string field, string thing)
    {
        var address = $"/api/{path}/west-saddle";
        var body = new JsonObject { ["name"] = "West saddle", [field] = JsonNode.Parse(thing) };

        using var created = await service.SendAsync(HttpMethod.Put, address, body);
        Assert.Equal(HttpStatusCode.Created, created.StatusCode);
        Assert.Equal(address, created.Headers.Location!.OriginalString);
        using var replaced = await service.SendAsync(HttpMethod.Put, address, body);
        Assert.Equal(HttpStatusCode.OK, replaced.StatusCode);

        var one = await service.GetAsync(address).JsonAsync();
        Assert.Equal("west-saddle", one["id"]!.GetValue<string>());
        Assert.Equal("West saddle", one["name"]!.GetValue<string>());
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(thing), one[field]));
        var listed = (await service.GetAsync($"/api/{path}").JsonAsync()).AsArray().Single(entry => entry!["id"]!.GetValue<string>() == "west-saddle");
        Assert.True(JsonNode.DeepEquals(one, listed));

        using var deleted = await service.SendAsync(HttpMethod.Delete, address);
        Assert.Equal(HttpStatusCode.NoContent, deleted.StatusCode);
        await service.GetAsync(address).ProblemAsync(HttpStatusCode.NotFound);
        await service.SendAsync(HttpMethod.Delete, address).ProblemAsync(HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task Two_writers_do_not_undo_one_another()
    {
        const string Address = "/api/lookouts/shared-saddle";
        using var first = await service.SendAsync(HttpMethod.Put, Address, Lookout("One"), ("If-None-Match", "*"));
        var tag = first.Headers.ETag!.ToString();
        await service.SendAsync(HttpMethod.Put, Address, Lookout("Two"), ("If-None-Match", "*")).ProblemAsync(HttpStatusCode.PreconditionFailed);

        using var second = await service.SendAsync(HttpMethod.Put, Address, Lookout("Two"), ("If-Match", tag));
        Assert.Equal(HttpStatusCode.OK, second.StatusCode);
        await service.SendAsync(HttpMethod.Put, Address, Lookout("Three"), ("If-Match", tag)).ProblemAsync(HttpStatusCode.PreconditionFailed);

        Assert.Equal("Two", (await service.GetAsync(Address).JsonAsync())["name"]!.GetValue<string>());
        using var got = await service.SendAsync(HttpMethod.Get, Address, null, ("If-None-Match", second.Headers.ETag!.ToString()));
        Assert.Equal(HttpStatusCode.NotModified, got.StatusCode);
    }

    [Fact]
    public async Task All_faults_of_what_is_put_are_said_at_once_and_nothing_is_kept()
    {
        var body = JsonNode.Parse("""{ "name": " ", "lookout": { "latitudeDeg": 91, "longitudeDeg": 7, "height": 3 }, "colour": "red" }""")!;
        var faults = await service.SendAsync(HttpMethod.Put, "/api/lookouts/West..Saddle", body).FaultsAsync();
        Assert.Equal(["colour", "id", "lookout.height", "lookout.latitudeDeg", "name"], faults.Keys.Order(StringComparer.Ordinal));

        var gear = JsonNode.Parse("""{ "name": "Long lens", "gear": { "camera": { "sensorWidthMm": 36 }, "lens": { "focalLengthMm": "long" } } }""")!;
        faults = await service.SendAsync(HttpMethod.Put, "/api/gear/long", gear).FaultsAsync();
        Assert.Equal(
            ["gear.camera.pixelsHigh", "gear.camera.pixelsWide", "gear.camera.sensorHeightMm", "gear.lens.focalLengthMm"], faults.Keys.Order(StringComparer.Ordinal));
        await service.GetAsync("/api/gear/long").ProblemAsync(HttpStatusCode.NotFound);

        Assert.Equal(["sounding"], (await service.SendAsync(HttpMethod.Put, "/api/soundings/none", new JsonObject { ["name"] = "None", ["sounding"] = "a letter" }).FaultsAsync()).Keys);
        Assert.Equal(["sounding"], (await service.SendAsync(HttpMethod.Put, "/api/soundings/none", new JsonObject { ["name"] = "None", ["sounding"] = 3 }).FaultsAsync()).Keys);
        Assert.Equal(["plan"], (await service.SendAsync(HttpMethod.Put, "/api/plans/none", new JsonObject { ["name"] = "None", ["plan"] = 3 }).FaultsAsync()).Keys);
    }

    private static JsonObject Lookout(string name) => new() { ["name"] = name, ["lookout"] = new JsonObject { ["latitudeDeg"] = 46.5, ["longitudeDeg"] = 7.5 } };
}
