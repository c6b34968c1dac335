using System.Net;
using System.Text;
using System.Text.Json.Nodes;

namespace Glowcast.Server.Tests.Api;

public class GridUploadTests(Service service)
{
    [Fact]
    public async Task A_grid_that_is_sent_is_listed_shown_and_planned_with_until_it_is_deleted()
    {
        var entry = await service.UploadAsync("slope.asc", MadeGrid.Ascii(1)).JsonAsync(HttpStatusCode.Created);
        var id = entry["id"]!.GetValue<string>();
        Assert.Equal("slope.asc", entry["grid"]!["name"]!.GetValue<string>());
        Assert.Equal(20, entry["grid"]!["rows"]!.GetValue<int>());
        Assert.True(JsonNode.DeepEquals(entry["grid"], await service.GetAsync($"/api/grids/{id}").JsonAsync()));
        Assert.Contains((await service.GetAsync("/api/grids").JsonAsync()).AsArray(), listed => JsonNode.DeepEquals(listed, entry));
        using var relief = await service.GetAsync($"/api/grids/{id}/hillshade");
        Assert.Equal("image/png", relief.Content.Headers.ContentType!.MediaType);

        var again = await service.UploadAsync("slope.asc", MadeGrid.Ascii(1)).JsonAsync();
        Assert.Equal(id, again["id"]!.GetValue<string>());
        var otherName = await service.UploadAsync("other.asc", MadeGrid.Ascii(1)).JsonAsync(HttpStatusCode.Created);
        Assert.NotEqual(id, otherName["id"]!.GetValue<string>());

        var plan = MadeValley.Plan();
        plan["grids"] = new JsonArray(id);
        Assert.Equal(["lookout"], (await service.PostPlanAsync(plan).FaultsAsync()).Keys);

        using var deleted = await service.SendAsync(HttpMethod.Delete, $"/api/grids/{id}");
        Assert.Equal(HttpStatusCode.NoContent, deleted.StatusCode);
        await service.GetAsync($"/api/grids/{id}").ProblemAsync(HttpStatusCode.NotFound);
        Assert.Equal(["grids"], (await service.PostPlanAsync(plan).FaultsAsync()).Keys);
    }

    [Fact]
    public async Task A_grid_of_the_start_stays() =>
        await service.SendAsync(HttpMethod.Delete, $"/api/grids/{MadeValley.GridId}").ProblemAsync(HttpStatusCode.Conflict);

    [Theory]
    [InlineData("slope.asc", "ncols 2 nrows")]
    [InlineData("N46E007.hgt", "short")]
    [InlineData("slope.zip", "PK")]
    [InlineData("slope.tif", "II*")]
    [InlineData("slope.exe", "MZ")]
    public async Task What_no_reader_can_read_is_said_and_not_kept(string name, string content)
    {
        await using var data = new DataOfATest();
        using var client = await data.StartAsync();
        var problem = await client.UploadAsync(name, Encoding.ASCII.GetBytes(content)).ProblemAsync(HttpStatusCode.UnprocessableEntity);
        Assert.Equal(["file"], problem["errors"]!.AsObject().Select(error => error.Key));
        Assert.Empty(data.GridFiles);
        Assert.Empty(data.HalfFiles);
    }

    [Theory]
    [InlineData("../../evil.asc")]
    [InlineData("/etc/evil.asc")]
    [InlineData(@"..\evil.asc")]
    [InlineData("")]
    [InlineData("line\nbreak.asc")]
    public async Task Names_that_are_paths_are_refused(string name) =>
        Assert.Equal(["name"], (await service.UploadAsync(name, MadeGrid.Ascii(2)).FaultsAsync()).Keys);

    [Fact]
    public async Task The_name_of_a_file_never_reaches_the_disk()
    {
        await using var data = new DataOfATest();
        using var client = await data.StartAsync();
        var entry = await client.UploadAsync("..evil name; rm.asc", MadeGrid.Ascii(3)).JsonAsync(HttpStatusCode.Created);
        Assert.Equal([entry["id"]!.GetValue<string>()], data.GridFiles.Select(Path.GetFileName));
    }

    [Fact]
    public async Task A_file_too_large_is_refused_whether_or_not_it_says_so_before()
    {
        await using var data = new DataOfATest();
        using var client = await data.StartAsync(options => options with { MostUploadBytes = 1000 });
        await client.UploadAsync("slope.asc", MadeGrid.Ascii(4)).ProblemAsync(HttpStatusCode.RequestEntityTooLarge);

        using var chunked = new HttpRequestMessage(HttpMethod.Post, new Uri("/api/grids?name=slope.asc", UriKind.Relative));
        chunked.Content = new StreamContent(new MemoryStream(MadeGrid.Ascii(4)));
        chunked.Content.Headers.ContentType = new("application/octet-stream");
        chunked.Headers.TransferEncodingChunked = true;
        await client.SendAsync(chunked, TestContext.Current.CancellationToken).ProblemAsync(HttpStatusCode.RequestEntityTooLarge);
        Assert.Empty(data.HalfFiles);
    }

    [Fact]
    public async Task Another_content_type_is_refused() => await service.SendAsync(HttpMethod.Post, "/api/grids?name=slope.asc", new JsonObject())
        .ProblemAsync(HttpStatusCode.UnsupportedMediaType);
}
