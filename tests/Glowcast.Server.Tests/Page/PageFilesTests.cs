using System.Net;
using System.Net.Http.Headers;

namespace Glowcast.Server.Tests.Page;

public class PageFilesTests(Service service)
{
    [Theory]
    [InlineData("/", "text/html")]
    [InlineData("/style.css", "text/css")]
    [InlineData("/main.js", "text/javascript")]
    public async Task The_page_comes_out_of_the_assembly_with_its_types(string path, string type)
    {
        using var response = await service.GetAsync(path);
        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        Assert.Equal(type, response.Content.Headers.ContentType!.MediaType);
        Assert.NotEmpty(await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task A_browser_that_has_it_already_is_told_so()
    {
        using var first = await service.GetAsync("/main.js");
        using var again = new HttpRequestMessage(HttpMethod.Get, new Uri("/main.js", UriKind.Relative));
        again.Headers.IfNoneMatch.Add(Assert.IsType<EntityTagHeaderValue>(first.Headers.ETag));
        using var second = await service.Client.SendAsync(again, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NotModified, second.StatusCode);
    }

    [Theory]
    [InlineData("/../Program.cs")]
    [InlineData("/wwwroot/index.html")]
    [InlineData("/plan.schema.json")]
    public async Task Nothing_else_is_served(string path) => await service.GetAsync(path).ProblemAsync(HttpStatusCode.NotFound);

    [Fact]
    public async Task Large_answers_travel_compressed()
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri("/openapi/v1.json", UriKind.Relative));
        request.Headers.AcceptEncoding.Add(new("br"));
        using var response = await service.Client.SendAsync(request, TestContext.Current.CancellationToken);
        Assert.Equal("br", Assert.Single(response.Content.Headers.ContentEncoding));
    }
}
