using System.Net;
using System.Text.RegularExpressions;

namespace Glowcast.Server.Tests.Api;

public partial class ReferenceTests(Service service)
{
    [Fact]
    public async Task The_description_can_be_browsed_without_asking_anybody_else()
    {
        using var page = await service.GetAsync("/reference/");
        Assert.Equal(HttpStatusCode.OK, page.StatusCode);
        var html = await page.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Contains("Glowcast", html, StringComparison.Ordinal);
        Assert.DoesNotMatch(Outside(), html);
        var script = Script().Match(html).Groups[1].Value;
        using var loaded = await service.GetAsync(new Uri(new Uri("http://service/reference/"), script).PathAndQuery);
        Assert.Equal(HttpStatusCode.OK, loaded.StatusCode);

        // Whatever its script would like to load, the browser may ask this service only.
        var policy = Assert.Single(page.Headers.GetValues("Content-Security-Policy"));
        Assert.StartsWith("default-src 'self'", policy, StringComparison.Ordinal);
        Assert.DoesNotMatch(Outside(), policy);
        Assert.DoesNotContain("*", policy, StringComparison.Ordinal);
    }

    [GeneratedRegex("(https?:)?//[a-z0-9-]+\\.[a-z]")]
    private static partial Regex Outside();

    [GeneratedRegex("src=\"([^\"]+\\.js[^\"]*)\"")]
    private static partial Regex Script();
}
