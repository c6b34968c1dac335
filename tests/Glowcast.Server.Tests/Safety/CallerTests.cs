using System.Net;

namespace Glowcast.Server.Tests.Safety;

/// <summary>What pages elsewhere can make a browser ask.</summary>
public class CallerTests(Service service)
{
    [Theory]
    [InlineData("http://elsewhere.example", HttpStatusCode.Forbidden)]
    [InlineData("http://127.0.0.1:1", HttpStatusCode.Forbidden)]
    [InlineData("null", HttpStatusCode.Forbidden)]
    [InlineData("", HttpStatusCode.Forbidden)]
    [InlineData("{own}", HttpStatusCode.OK)]
    public async Task Only_the_services_own_origin_is_answered(string origin, HttpStatusCode expected)
    {
        var own = service.Client.BaseAddress!.GetLeftPart(UriPartial.Authority);
        using var response = await service.SendAsync(HttpMethod.Get, "/api/grids", null, ("Origin", origin.Replace("{own}", own, StringComparison.Ordinal)));
        Assert.Equal(expected, response.StatusCode);
    }

    [Theory]
    [InlineData("cross-site", "/api/grids", HttpStatusCode.Forbidden)]
    [InlineData("same-site", "/api/grids", HttpStatusCode.Forbidden)]
    [InlineData("same-origin", "/api/grids", HttpStatusCode.OK)]
    [InlineData("none", "/api/grids", HttpStatusCode.OK)]
    [InlineData("cross-site", "/health", HttpStatusCode.OK)]
    public async Task What_a_browser_says_comes_from_another_site_reaches_no_data(string site, string path, HttpStatusCode expected)
    {
        using var response = await service.SendAsync(HttpMethod.Get, path, null, ("Sec-Fetch-Site", site));
        Assert.Equal(expected, response.StatusCode);
    }

    [Fact]
    public async Task Every_refusal_says_why()
    {
        var longName = new string('x', 10_000);
        Assert.Contains("8192", await DetailAsync(service.GetAsync($"/api/sun?{longName}"), HttpStatusCode.RequestUriTooLong), StringComparison.Ordinal);
        Assert.Contains("another host", await DetailAsync(service.SendAsync(HttpMethod.Get, "/health", null, ("Host", "elsewhere.example")), HttpStatusCode.BadRequest), StringComparison.Ordinal);
        Assert.Contains("answers to POST", await DetailAsync(service.GetAsync("/api/forecasts"), HttpStatusCode.MethodNotAllowed), StringComparison.Ordinal);
        Assert.Contains("/api/nothing", await DetailAsync(service.GetAsync("/api/nothing"), HttpStatusCode.NotFound), StringComparison.Ordinal);
        Assert.Contains("text/plain", await DetailAsync(service.PostTextAsync("{}", "", "text/plain"), HttpStatusCode.UnsupportedMediaType), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_body_without_a_type_or_in_another_charset_is_refused_with_what_to_send()
    {
        using var untyped = new ByteArrayContent("{}"u8.ToArray());
        Assert.Contains("no Content-Type", await DetailAsync(PostAsync(untyped), HttpStatusCode.UnsupportedMediaType), StringComparison.Ordinal);
        using var utf16 = new StringContent("{}", System.Text.Encoding.Unicode, "application/json");
        Assert.Contains("utf-16", await DetailAsync(PostAsync(utf16), HttpStatusCode.UnsupportedMediaType), StringComparison.Ordinal);
    }

    private Task<HttpResponseMessage> PostAsync(HttpContent content) =>
        service.Client.PostAsync(new Uri("/api/forecasts", UriKind.Relative), content, TestContext.Current.CancellationToken);

    private static async Task<string> DetailAsync(Task<HttpResponseMessage> sent, HttpStatusCode expected) =>
        (await sent.ProblemAsync(expected))["detail"]!.GetValue<string>();
}
