using System.Net;
using System.Text.Json.Nodes;
using Glowcast.Engine.Measures;

namespace Glowcast.Server.Tests.Store;

public class KeepingTests
{
    [Fact]
    public async Task What_was_kept_is_there_when_the_service_starts_again()
    {
        await using var data = new DataOfATest();
        using var first = await data.StartAsync();
        var lookout = new JsonObject { ["name"] = "Saddle", ["lookout"] = new JsonObject { ["latitudeDeg"] = 46.5, ["longitudeDeg"] = 7.5 } };
        var kept = await first.SendJsonAsync(HttpMethod.Put, "/api/lookouts/saddle", lookout).JsonAsync(HttpStatusCode.Created);
        var grid = await first.UploadAsync("slope.asc", MadeGrid.Ascii(1)).JsonAsync(HttpStatusCode.Created);

        using var second = await data.StartAsync();

        Assert.True(JsonNode.DeepEquals(kept, await second.SendJsonAsync(HttpMethod.Get, "/api/lookouts/saddle").JsonAsync()));
        Assert.True(JsonNode.DeepEquals(grid["grid"], await second.SendJsonAsync(HttpMethod.Get, $"/api/grids/{grid["id"]}").JsonAsync()));
        using var relief = await second.SendJsonAsync(HttpMethod.Get, $"/api/grids/{grid["id"]}/hillshade");
        Assert.Equal(HttpStatusCode.OK, relief.StatusCode);
    }

    [Fact]
    public async Task One_folder_serves_one_service()
    {
        await using var data = new DataOfATest();
        using var client = await data.StartAsync();
        var refusal = Assert.Throws<BadInputException>(() => ServerHost.Build(new ServerOptions { DataFolder = data.Folder }));
        Assert.Contains("in use", Assert.Single(refusal.Faults).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_folder_that_cannot_be_used_is_said()
    {
        await using var data = new DataOfATest();
        var file = Path.Combine(data.Folder, "file");
        await File.WriteAllTextAsync(file, "", TestContext.Current.CancellationToken);
        Assert.Equal("data", Assert.Single(Assert.Throws<BadInputException>(() => ServerHost.Build(new ServerOptions { DataFolder = file })).Faults).Field);

        await File.WriteAllTextAsync(Path.Combine(data.Folder, "glowcast.db"), new string('x', 5000), TestContext.Current.CancellationToken);
        Assert.Equal("data", Assert.Single(Assert.Throws<BadInputException>(() => ServerHost.Build(new ServerOptions { DataFolder = data.Folder })).Faults).Field);
    }
}
