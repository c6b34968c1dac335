using System.Net;
using System.Text;

namespace Glowcast.Server.Tests.Api;

/// <summary>What a plan is taken along as.</summary>
public class CardApiTests(Service service)
{
    [Theory]
    [InlineData("", "text/html", "<!doctype html>")]
    [InlineData("?as=gpx", "application/gpx+xml", "<gpx")]
    public async Task A_plan_is_taken_along_as_a_file(string query, string type, string holds)
    {
        using var response = await PostAsync(query);
        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        Assert.Equal(type, response.Content.Headers.ContentType!.MediaType);
        Assert.StartsWith("glowcast-2026-10-20.", response.Content.Headers.ContentDisposition!.FileName, StringComparison.Ordinal);
        Assert.Contains(holds, await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task A_format_that_is_none_is_refused_with_those_there_are() =>
        Assert.Contains("gpx", (await PostAsync("?as=doc").ProblemAsync(HttpStatusCode.BadRequest))["errors"]!["as"]!.ToJsonString(), StringComparison.Ordinal);

    private Task<HttpResponseMessage> PostAsync(string query) => service.Client.PostAsync(
        new Uri($"/api/cards{query}", UriKind.Relative), new StringContent(MadeValley.Plan().ToJsonString(), Encoding.UTF8, "application/json"), TestContext.Current.CancellationToken);
}
