using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using Microsoft.Data.Sqlite;

namespace Glowcast.Cli.Tests;

/// <summary>The service is killed in the middle of uploads and writes, again and again on the same data: 3 times a run, or as often as
/// <c>GLOWCAST_KILLS</c> says.</summary>
public sealed class KillTests(MadeValley valley) : IClassFixture<MadeValley>
{
    private const int GridsKept = 30;

    private static readonly int Kills = int.Parse(Environment.GetEnvironmentVariable("GLOWCAST_KILLS") ?? "3", CultureInfo.InvariantCulture);

    private readonly Random random = new(20261125);
    private readonly Dictionary<string, string> lookouts = [];
    private readonly HashSet<string> grids = [];
    private readonly HashSet<string> uncertain = [];
    private readonly List<string> imports = [];
    private volatile bool isKilled;
    private int number;
    private int acknowledged;
    private int imported;

    private string Data => Path.Combine(valley.Folder, "killed");

    [Fact]
    public async Task What_was_acknowledged_outlives_every_kill_and_no_half_file_stays()
    {
        for (var kill = 0; kill < Kills; kill++)
        {
            using var service = await ServiceProcess.StartAsync("--data", Data);
            await CheckAsync(service.Client);
            isKilled = false;
            var writers = Task.WhenAll(WriteAsync(() => PutAsync(service.Client)), WriteAsync(() => UploadAsync(service.Client)), WriteAsync(() => ImportAsync(service.Client)), WriteAsync(() => DeleteAsync(service.Client)));
            var enough = Volatile.Read(ref acknowledged) + random.Next(1, 60);
            while (Volatile.Read(ref acknowledged) < enough && !writers.IsCompleted) await Task.Delay(1, TestContext.Current.CancellationToken);
            await service.KillAsync();
            isKilled = true;
            await writers;
        }
        using (var last = await ServiceProcess.StartAsync("--data", Data))
        {
            await CheckAsync(last.Client);
            await last.KillAsync();
        }
        using var database = new SqliteConnection($"Data Source={Path.Combine(Data, "glowcast.db")};Pooling=False");
        database.Open();
        using var command = database.CreateCommand();
        command.CommandText = "PRAGMA integrity_check";
        Assert.Equal("ok", command.ExecuteScalar());
        Assert.True(lookouts.Count > Kills && grids.Count > 0 && imported > 0, $"{lookouts.Count} lookouts, {grids.Count} grids, {imported} imports");
        TestContext.Current.TestOutputHelper!.WriteLine($"{Kills} kills; acknowledged and found again: {lookouts.Count} lookouts, {grids.Count} grids, {imported} imports");
    }

    private async Task CheckAsync(HttpClient client)
    {
        var listed = (await GetAsync(client, "api/lookouts")).AsArray().ToDictionary(lookout => lookout!["id"]!.GetValue<string>(), lookout => lookout!["name"]!.GetValue<string>());
        foreach (var (id, name) in lookouts) Assert.Equal(name, listed[id]);
        foreach (var import in imports)
        {
            JsonNode job;
            while ((job = await GetAsync(client, import))["state"]!.GetValue<string>() is "queued" or "running") await Task.Delay(20, TestContext.Current.CancellationToken);
            Assert.Equal("done", job["state"]!.GetValue<string>());
        }
        // A grid that was kept but not spoken of is taken up again in a job that nobody has asked for.
        while ((await GetAsync(client, "api/jobs")).AsArray().Any(job => job!["state"]!.GetValue<string>() is "queued" or "running")) await Task.Delay(20, TestContext.Current.CancellationToken);
        imported += imports.Count;
        imports.Clear();
        var present = (await GetAsync(client, "api/grids")).AsArray().ToDictionary(grid => grid!["id"]!.GetValue<string>(), grid => grid!["grid"]!["name"]!.GetValue<string>());
        foreach (var id in grids.Except(uncertain)) Assert.True(present.ContainsKey(id), $"grid {id} is lost");
        grids.IntersectWith(present.Keys);
        uncertain.Clear();
        // A file is whole if it still has the address that its name and bytes gave it.
        var files = Directory.EnumerateFiles(Path.Combine(Data, "grids")).ToList();
        Assert.Equal(present.Keys.Order(StringComparer.Ordinal), files.Select(Path.GetFileName).Order(StringComparer.Ordinal));
        foreach (var file in files) Assert.Equal(Path.GetFileName(file), AddressOf(present[Path.GetFileName(file)], await File.ReadAllBytesAsync(file, TestContext.Current.CancellationToken)));
        Assert.Empty(Directory.EnumerateFiles(Path.Combine(Data, "incoming")));
    }

    /// <summary>Writes on until the service is gone.</summary>
    private async Task WriteAsync(Func<Task> write)
    {
        try
        {
            while (!isKilled)
            {
                await write();
                Interlocked.Increment(ref acknowledged);
            }
        }
        catch (Exception gone) when (gone is IOException or HttpRequestException { StatusCode: null })
        {
            // Killed: what was not acknowledged may be there or not.
        }
    }

    private async Task PutAsync(HttpClient client)
    {
        var (id, name) = ($"saddle-{Interlocked.Increment(ref number)}", $"Saddle {Guid.NewGuid()}");
        using var body = new StringContent($$"""{ "name": "{{name}}", "lookout": { "latitudeDeg": 46, "longitudeDeg": 7 } }""", Encoding.UTF8, "application/json");
        using var response = await client.PutAsync(new Uri($"api/lookouts/{id}", UriKind.Relative), body, TestContext.Current.CancellationToken);
        response.EnsureSuccessStatusCode();
        lookouts[id] = name;
    }

    private async Task UploadAsync(HttpClient client)
    {
        using var response = await SendGridAsync(client, later: false);
        var entry = JsonNode.Parse(await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!;
        lock (grids) grids.Add(entry["id"]!.GetValue<string>());
    }

    private async Task ImportAsync(HttpClient client)
    {
        using var response = await SendGridAsync(client, later: true);
        imports.Add(response.Headers.Location!.OriginalString);
        await Task.Delay(50, TestContext.Current.CancellationToken);
    }

    private async Task<HttpResponseMessage> SendGridAsync(HttpClient client, bool later)
    {
        var seed = Interlocked.Increment(ref number);
        using var file = new ByteArrayContent(Grid(20 + (seed * 37 % 200), seed));
        file.Headers.ContentType = new("application/octet-stream");
        using var request = new HttpRequestMessage(HttpMethod.Post, new Uri($"api/grids?name=made-{seed}.asc", UriKind.Relative)) { Content = file };
        if (later) request.Headers.Add("Prefer", "respond-async");
        return (await client.SendAsync(request, TestContext.Current.CancellationToken)).EnsureSuccessStatusCode();
    }

    private async Task DeleteAsync(HttpClient client)
    {
        await Task.Delay(50, TestContext.Current.CancellationToken);
        var id = "";
        lock (grids)
        {
            if (grids.Count <= GridsKept) return;
            id = grids.First();
            uncertain.Add(id);
        }
        using var response = await client.DeleteAsync(new Uri($"api/grids/{id}", UriKind.Relative), TestContext.Current.CancellationToken);
        response.EnsureSuccessStatusCode();
        lock (grids)
        {
            grids.Remove(id);
            uncertain.Remove(id);
        }
    }

    private static byte[] Grid(int size, int seed)
    {
        var text = new StringBuilder().Append(CultureInfo.InvariantCulture, $"ncols {size}\nnrows {size}\nxllcenter 7\nyllcenter 46\ncellsize 0.001\n");
        for (var i = 0; i < size * size; i++) text.Append(CultureInfo.InvariantCulture, $"{1000 + ((i * seed) % 999)} ");
        return Encoding.ASCII.GetBytes(text.Append('\n').ToString());
    }

    private static string AddressOf(string name, byte[] bytes) => Convert.ToHexStringLower(SHA256.HashData([.. Encoding.UTF8.GetBytes(name), 0, .. bytes]))[..32];

    private static async Task<JsonNode> GetAsync(HttpClient client, string path) =>
        JsonNode.Parse(await client.GetStringAsync(new Uri(path, UriKind.Relative), TestContext.Current.CancellationToken))!;
}
