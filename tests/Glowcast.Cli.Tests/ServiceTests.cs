using System.Net;
using System.Net.Sockets;
using System.Text.Json;
using Glowcast.Cli.Hosting;

namespace Glowcast.Cli.Tests;

public class ServiceTests(MadeValley valley) : IClassFixture<MadeValley>
{
    [Fact]
    public async Task Serve_answers_until_it_is_stopped()
    {
        await using var service = new RunningCommand("serve", "--urls", "http://127.0.0.1:0", "--grid", valley.Grid);

        var address = await service.AddressAsync();
        using var client = new HttpClient();
        var health = await client.GetAsync(new Uri(address, "health"), TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.OK, health.StatusCode);
        Assert.Equal(0, await service.StopAsync());
    }

    [Fact]
    public async Task The_demo_prints_its_forecast_and_serves_its_plan()
    {
        var port = FreePort.From(25_127);
        await using var demo = new RunningCommand("demo", "--port", $"{port}");

        var address = await demo.AddressAsync();
        Assert.Equal(port, address.Port);
        using var client = new HttpClient();
        var plan = JsonDocument.Parse(await client.GetStringAsync(new Uri(address, "api/demo"), TestContext.Current.CancellationToken)).RootElement;

        Assert.Equal("N46W032.hgt", plan.GetProperty("grids")[0].GetString());
        Assert.Contains("Does it fit?", demo.Out, StringComparison.Ordinal);
        Assert.All(demo.Out.Split(Environment.NewLine), line => Assert.True(line.Length <= 80, line));
        Assert.Equal(0, await demo.StopAsync());
    }

    [Fact]
    public async Task Logs_are_json_where_that_is_asked_for_and_silent_else()
    {
        Assert.Equal("", await LogOf());
        var log = await LogOf("--log-json");
        var lines = log.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => JsonDocument.Parse(line).RootElement).ToList();
        Assert.Contains(lines, line => line.GetProperty("State").TryGetProperty("Path", out var path) && path.GetString() == "/health"
            && line.GetProperty("State").TryGetProperty("StatusCode", out var status) && status.GetInt32() == 200);
        Assert.All(lines, line => Assert.EndsWith("Z", line.GetProperty("Timestamp").GetString(), StringComparison.Ordinal));

        static async Task<string> LogOf(params IEnumerable<string> options)
        {
            using var service = await ServiceProcess.StartAsync(options);
            await service.Client.GetStringAsync(new Uri("health", UriKind.Relative), TestContext.Current.CancellationToken);
            // Written by a thread of its own; a second request is answered after the first one has been logged.
            for (var i = 0; i < 20; i++) await service.Client.GetStringAsync(new Uri("health", UriKind.Relative), TestContext.Current.CancellationToken);
            return await service.KillAsync();
        }
    }

    [Fact]
    public async Task A_port_that_is_taken_is_said()
    {
        using var taken = new TcpListener(IPAddress.Loopback, 0);
        taken.Start();

        var port = ((IPEndPoint)taken.LocalEndpoint).Port;
        Assert.Equal(["--urls"], (await Outcome.Of("serve", "--urls", $"http://127.0.0.1:{port}")).Faults);
        Assert.Equal(["--port"], (await Outcome.Of("serve", "--port", $"{port}")).Faults);
    }

    [Theory]
    [InlineData("65536")]
    [InlineData("-1")]
    [InlineData("80.5")]
    [InlineData("any")]
    public async Task Ports_that_are_none_are_said(string port)
    {
        Assert.Equal(["--port"], (await Outcome.Of("serve", "--port", port)).Faults);
        Assert.Equal(["--port"], (await Outcome.Of("demo", "--port", port)).Faults);
    }

    [Fact]
    public async Task A_port_beside_an_address_and_a_file_for_a_folder_are_refused()
    {
        Assert.Equal(["--port", "--data"], (await Outcome.Of("serve", "--port", "0", "--urls", "http://127.0.0.1:0", "--data", valley.Plan)).Faults);
    }

    [Fact]
    public async Task An_empty_name_is_no_data_folder()
    {
        var refused = await Outcome.Of("serve", "--port", "0", "--data", "");
        Assert.Equal(["--data"], refused.Faults);
        Assert.Contains("Is empty; name a folder", refused.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_demo_as_json_is_its_forecast_and_starts_nothing()
    {
        Assert.Equal("fits", (await Outcome.Of("demo", "--json")).Json.GetProperty("fit").GetProperty("verdict").GetString());
    }

    [Theory]
    [InlineData("https://127.0.0.1:5127")]
    [InlineData("http://example.org")]
    [InlineData("everywhere")]
    public async Task Addresses_that_are_none_are_said(string urls)
    {
        Assert.Equal(["--urls"], (await Outcome.Of("serve", "--urls", urls)).Faults);
    }

    [Fact]
    public async Task At_another_address_the_token_is_shown_once_and_asked_for()
    {
        var data = Path.Combine(valley.Folder, "token-data");
        await using (var service = new RunningCommand("serve", "--urls", "http://127.0.0.1:0;http://0.0.0.0:0", "--data", data))
        {
            using var client = new HttpClient { BaseAddress = await service.AddressAsync() };
            using var refused = await client.GetAsync(new Uri("api/grids", UriKind.Relative), TestContext.Current.CancellationToken);
            Assert.Equal(HttpStatusCode.Unauthorized, refused.StatusCode);
            client.DefaultRequestHeaders.Authorization = new("Bearer", TokenIn(service.Out));
            using var answered = await client.GetAsync(new Uri("api/grids", UriKind.Relative), TestContext.Current.CancellationToken);
            Assert.Equal(HttpStatusCode.OK, answered.StatusCode);
        }
        await using var again = new RunningCommand("serve", "--urls", "http://127.0.0.1:0;http://0.0.0.0:0", "--data", data);
        await again.AddressAsync();
        Assert.DoesNotContain("Token", again.Out + again.Error, StringComparison.Ordinal);

        static string TokenIn(string said) => said.Split('\n').Single(line => line.StartsWith("Token, ", StringComparison.Ordinal)).Split(": ")[1].Trim();
    }

    [Fact]
    public async Task The_log_is_json_from_its_first_line_and_holds_no_token()
    {
        const string secret = "a-token-in-a-query";
        using var service = await ServiceProcess.StartAsync("--log-json", "--urls", "http://127.0.0.1:0;http://0.0.0.0:0");
        using var refused = await service.Client.GetAsync(new Uri($"api/grids?token={secret}", UriKind.Relative), TestContext.Current.CancellationToken);
        for (var i = 0; i < 20; i++) await service.Client.GetStringAsync(new Uri("health", UriKind.Relative), TestContext.Current.CancellationToken);
        var log = await service.KillAsync();
        Assert.DoesNotContain(secret, log, StringComparison.Ordinal);
        Assert.DoesNotContain("Token", log, StringComparison.Ordinal);
        Assert.All(log.Split('\n', StringSplitOptions.RemoveEmptyEntries), line => JsonDocument.Parse(line).Dispose());
        Assert.Contains("/api/grids", log, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("http://127.0.0.1#:5210")]
    [InlineData("http://127.0.0.1:0/#here")]
    [InlineData("http://127.0.0.1:0?a")]
    public async Task An_address_with_more_than_a_port_is_refused(string address) => Assert.Equal(["--urls"], (await Outcome.Of("serve", "--urls", address)).Faults);

    [Fact]
    public async Task Grids_to_be_served_must_exist_and_differ_in_name()
    {
        Assert.Equal(["--grid nowhere.hgt"], (await Outcome.Of("serve", "--grid", "nowhere.hgt")).Faults);
        Assert.Equal(["--grid"], (await Outcome.Of("serve", "--grid", valley.Grid, valley.Grid)).Faults);
    }
}
