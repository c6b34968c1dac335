using System.Buffers.Binary;
using System.Net;
using System.Text.Json.Nodes;

namespace Glowcast.Server.Tests.Api;

public class ChartApiTests(Service service)
{
    private const string Binary = "application/vnd.glowcast.chart";
    private const string Picture = "image/png";

    [Fact]
    public async Task The_chart_as_json_is_the_forecasts_own()
    {
        var forecast = await service.PostPlanAsync(MadeValley.Plan(), "?pictures=true").JsonAsync();
        Assert.True(JsonNode.DeepEquals(forecast["chart"], await service.GetAsync(await ChartAsync()).JsonAsync()));
    }

    [Fact]
    public async Task The_chart_as_bytes_says_the_same_as_json()
    {
        var chart = await ChartAsync();
        var json = await service.GetAsync(chart).JsonAsync();
        using var response = await service.SendAsync(HttpMethod.Get, chart, null, ("Accept", Binary));
        Assert.Equal(Binary, response.Content.Headers.ContentType!.MediaType);
        using var bytes = new BinaryReader(await response.Content.ReadAsStreamAsync(TestContext.Current.CancellationToken));

        Assert.Equal("GLOW"u8.ToArray(), bytes.ReadBytes(4));
        Assert.Equal(1, bytes.ReadUInt16());
        var (columns, minutes) = (bytes.ReadUInt16(), bytes.ReadInt32());
        Assert.Equal((json["columns"]!.GetValue<int>(), json["minutes"]!.GetValue<int>()), (columns, minutes));
        Assert.Equal(DateTimeOffset.Parse(json["start"]!.GetValue<string>(), System.Globalization.CultureInfo.InvariantCulture), DateTimeOffset.FromUnixTimeMilliseconds(bytes.ReadInt64()));
        foreach (var number in (string[])["lengthS", "fromDeg", "columnDeg"]) Assert.Equal(json[number]!.GetValue<double>(), bytes.ReadDouble());
        Assert.Equal(json["hasRidge"]!.AsArray().Select(has => has!.GetValue<bool>()), bytes.ReadBytes(columns).Select(has => has == 1));
        foreach (var layer in (string[])["crest", "ridge", "valley"])
            Assert.Equal(Convert.FromBase64String(json[layer]!.GetValue<string>()), bytes.ReadBytes(columns * minutes));
        foreach (var lit in json["columnLitS"]!.AsArray()) AssertList(lit!, bytes);
        foreach (var list in (string[])["valleyShare", "valleyShadedS", "sunAzimuthDeg", "sunAltitudeDeg"]) AssertList(json[list]!, bytes);
        Assert.Empty(bytes.ReadBytes(1));
    }

    /// <summary>Signature and sizes in the first chunk: PNG, third edition, 5.2 and 11.2.1.</summary>
    [Fact]
    public async Task The_chart_as_a_picture_is_drawn_as_png()
    {
        using var response = await service.SendAsync(HttpMethod.Get, await ChartAsync(), null, ("Accept", Picture));
        Assert.Equal(Picture, response.Content.Headers.ContentType!.MediaType);
        var bytes = await response.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken);
        Assert.Equal((byte[])[0x89, .. "PNG\r\n\x1a\n"u8], bytes[..8]);
        Assert.Equal((2200, 560), (BinaryPrimitives.ReadInt32BigEndian(bytes.AsSpan(16)), BinaryPrimitives.ReadInt32BigEndian(bytes.AsSpan(20))));
    }

    [Theory]
    [InlineData("*/*", "application/json")]
    [InlineData("application/*;q=0.5", "application/json")]
    [InlineData("application/json;q=0.2, application/vnd.glowcast.chart", Binary)]
    [InlineData("application/vnd.glowcast.chart;q=0, */*", "application/json")]
    [InlineData("application/json;q=0, */*", Binary)]
    [InlineData("image/*, application/json;q=0.9", Picture)]
    public async Task The_form_that_is_liked_best_is_sent(string accept, string expected)
    {
        using var response = await service.SendAsync(HttpMethod.Get, await ChartAsync(), null, ("Accept", accept));
        Assert.Equal(expected, response.Content.Headers.ContentType!.MediaType);
        Assert.Contains("Accept", response.Headers.Vary);
    }

    [Fact]
    public async Task A_form_that_the_chart_does_not_come_in_is_refused() =>
        await service.SendAsync(HttpMethod.Get, await ChartAsync(), null, ("Accept", "audio/ogg")).ProblemAsync(HttpStatusCode.NotAcceptable);

    [Fact]
    public async Task Each_form_is_not_sent_twice()
    {
        var chart = await ChartAsync();
        foreach (var type in (string[])["application/json", Binary, Picture])
        {
            using var first = await service.SendAsync(HttpMethod.Get, chart, null, ("Accept", type));
            using var second = await service.SendAsync(HttpMethod.Get, chart, null, ("Accept", type), ("If-None-Match", first.Headers.ETag!.ToString()));
            Assert.Equal(HttpStatusCode.NotModified, second.StatusCode);
        }
    }

    private async Task<string> ChartAsync()
    {
        using var posted = await service.PostPlanAsync(MadeValley.Plan());
        return $"{posted.Content.Headers.ContentLocation!.OriginalString}/chart";
    }

    private static void AssertList(JsonNode expected, BinaryReader bytes)
    {
        var values = expected.AsArray();
        Assert.Equal(values.Count, bytes.ReadInt32());
        foreach (var value in values) Assert.Equal((float)value!.GetValue<double>(), bytes.ReadSingle());
    }
}
