using System.Net;
using System.Text.Json.Nodes;
using Glowcast.Engine.Measures;
using Glowcast.Server.Api;
using Microsoft.AspNetCore.Http;

namespace Glowcast.Server.Tests.Api;

/// <summary>Nobody undoes what another has written: RFC 9110, section 13.1.</summary>
public sealed class ConditionTests : IAsyncDisposable
{
    private readonly DataOfATest data = new();

    public static TheoryData<string> Malformed => ["saddle", "\"open", "W/", "\"a\" \"b\"", "\"a\", b", ",", "**", "'a'", "*, \"a\"", "\"a\", *"];

    public ValueTask DisposeAsync() => data.DisposeAsync();

    [Theory]
    [MemberData(nameof(Malformed))]
    public async Task A_condition_that_cannot_be_read_is_refused(string tag)
    {
        using var client = await WithALookoutAsync();
        foreach (var header in (string[])["If-Match", "If-None-Match"])
            Assert.Equal([header], (await client.SendJsonAsync(HttpMethod.Put, "/api/lookouts/saddle", Lookout("Other"), (header, tag)).FaultsAsync()).Keys);
        Assert.Equal(["If-Match"], (await client.SendJsonAsync(HttpMethod.Delete, "/api/lookouts/saddle", null, ("If-Match", tag)).FaultsAsync()).Keys);
        Assert.Equal("Saddle", (await client.SendJsonAsync(HttpMethod.Get, "/api/lookouts/saddle").JsonAsync())["name"]!.GetValue<string>());
    }

    /// <summary>Found by fuzzing: the library's own reader ended with an exception. Behind a server that does not cut blanks off it would have been a fault of ours.</summary>
    [Theory]
    [InlineData("W/ ")]
    [InlineData("W/   ")]
    [InlineData("\"a\",W/\t")]
    public void A_tag_that_breaks_off_before_blanks_is_refused(string tag) =>
        Assert.Equal("If-Match", Assert.Single(Assert.Throws<BadInputException>(() => new WriteCondition(new HeaderDictionary { ["If-Match"] = tag })).Faults).Field);

    [Fact]
    public async Task Nothing_is_deleted_that_another_has_changed()
    {
        using var client = await WithALookoutAsync();
        var stale = await TagOfAsync(client, "/api/lookouts/saddle");
        await client.SendJsonAsync(HttpMethod.Put, "/api/lookouts/saddle", Lookout("Other"), ("If-Match", stale)).JsonAsync();
        await client.SendJsonAsync(HttpMethod.Put, "/api/lookouts/saddle", Lookout("Third"), ("If-Match", stale)).ProblemAsync(HttpStatusCode.PreconditionFailed);
        await client.SendJsonAsync(HttpMethod.Delete, "/api/lookouts/saddle", null, ("If-Match", stale)).ProblemAsync(HttpStatusCode.PreconditionFailed);
        await client.SendJsonAsync(HttpMethod.Delete, "/api/lookouts/nobody", null, ("If-Match", stale)).ProblemAsync(HttpStatusCode.NotFound);
        using var deleted = await client.SendJsonAsync(HttpMethod.Delete, "/api/lookouts/saddle", null, ("If-Match", await TagOfAsync(client, "/api/lookouts/saddle")));
        Assert.Equal(HttpStatusCode.NoContent, deleted.StatusCode);
    }

    [Fact]
    public async Task Grids_notes_and_jobs_too_are_deleted_only_as_they_were_seen()
    {
        using var client = await data.StartAsync();
        var grid = await client.UploadAsync("slope.asc", MadeGrid.Ascii(1)).JsonAsync(HttpStatusCode.Created);
        using var forecast = await client.SendJsonAsync(HttpMethod.Post, "/api/forecasts", MadeValley.Plan());
        var address = forecast.Content.Headers.ContentLocation!.OriginalString["/api/forecasts/".Length..];
        var note = await client.SendJsonAsync(HttpMethod.Post, "/api/notes", new JsonObject { ["forecast"] = address, ["set"] = "whole" }).JsonAsync(HttpStatusCode.Created);
        foreach (var path in (string[])[$"/api/grids/{grid["id"]}", $"/api/notes/{note["id"]}"])
        {
            await client.SendJsonAsync(HttpMethod.Delete, path, null, ("If-Match", "\"another\"")).ProblemAsync(HttpStatusCode.PreconditionFailed);
            using var deleted = await client.SendJsonAsync(HttpMethod.Delete, path, null, ("If-Match", await TagOfAsync(client, path)));
            Assert.Equal(HttpStatusCode.NoContent, deleted.StatusCode);
        }
    }

    private async Task<HttpClient> WithALookoutAsync()
    {
        var client = await data.StartAsync();
        await client.SendJsonAsync(HttpMethod.Put, "/api/lookouts/saddle", Lookout("Saddle")).JsonAsync(HttpStatusCode.Created);
        return client;
    }

    private static JsonObject Lookout(string name) => new() { ["name"] = name, ["lookout"] = new JsonObject { ["latitudeDeg"] = 46.5, ["longitudeDeg"] = 7.5 } };

    private static async Task<string> TagOfAsync(HttpClient client, string path)
    {
        using var response = await client.SendJsonAsync(HttpMethod.Get, path);
        return response.Headers.ETag!.ToString();
    }
}
