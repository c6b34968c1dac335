using System.Collections.Concurrent;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;

namespace Glowcast.Server.Tests.Telemetry;

public class TelemetryTests
{
    [Fact]
    public async Task Metrics_and_traces_go_to_the_collector_that_is_named()
    {
        var received = new ConcurrentDictionary<string, string>();
        await using var collector = await CollectorAsync(received);
        await using var data = new DataOfATest();
        using (var client = await data.StartAsync(options => options with { Collector = new Uri(collector.Urls.Single()) }))
            await client.SendJsonAsync(HttpMethod.Post, "/api/forecasts", MadeValley.Plan()).JsonAsync();
        await data.StopAsync();

        Assert.Contains("glowcast.forecast.duration", received["/v1/metrics"], StringComparison.Ordinal);
        Assert.Contains("forecast", received["/v1/traces"], StringComparison.Ordinal);
    }

    private static async Task<WebApplication> CollectorAsync(ConcurrentDictionary<string, string> received)
    {
        var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseKestrelCore().UseUrls("http://127.0.0.1:0");
        var app = builder.Build();
        app.Run(async context =>
        {
            using var body = new MemoryStream();
            await context.Request.Body.CopyToAsync(body);
            received.AddOrUpdate(context.Request.Path, _ => Text(body), (_, before) => before + Text(body));
        });
        await app.StartAsync(TestContext.Current.CancellationToken);
        return app;

        static string Text(MemoryStream body) => Encoding.Latin1.GetString(body.ToArray());
    }
}
