using System.Diagnostics;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using Glowcast.Server.Store;
using Microsoft.Data.Sqlite;

namespace Glowcast.Cli.Tests;

/// <summary>The service is killed in the middle of uploads, imports, notes, takes that are kept, long jobs, writes and deletions, again and again on the same data, and so
/// are a backup of it and a restore: 3 times each a run, or as often as <c>GLOWCAST_KILLS</c> says.</summary>
public sealed class KillTests(MadeValley valley) : IClassFixture<MadeValley>
{
    private const int GridsKept = 30;

    private static readonly int Kills = int.Parse(Environment.GetEnvironmentVariable("GLOWCAST_KILLS") ?? "3", CultureInfo.InvariantCulture);

    private readonly Random random = new(20261125);
    private readonly Dictionary<string, string> lookouts = [];
    private readonly HashSet<string> grids = [];
    private readonly HashSet<string> uncertain = [];
    private readonly List<string> imports = [];
    private readonly List<string> seasons = [];
    private readonly HashSet<string> notes = [];
    private string forecast = "";
    private readonly Span backup = new();
    private const int MostMore = 20;

    private readonly Span restore = new();
    private int backups;
    private int restores;
    private volatile bool isKilled;
    private int number;
    private int acknowledged;
    private int imported;
    private int ranked;
    private int takes;

    private string Data => Path.Combine(valley.Folder, "killed");

    [Fact]
    public async Task What_was_acknowledged_outlives_every_kill_and_no_half_file_stays()
    {
        // On a slow machine some kind of work may not have been done even once: then a few more times, and not before a take was kept.
        var kills = 0;
        for (var kill = 0; kill < Kills || (kill < Kills + MostMore && !(imported > 0 && ranked > 0 && takes > 0)); kill++)
        {
            using var service = await ServiceProcess.StartAsync("--data", Data, "--grid", valley.Grid);
            forecast = await ForecastAsync(service.Client);
            await CheckAsync(service.Client);
            isKilled = false;
            var backingUp = KillABackupAsync(kill);
            var writers = Task.WhenAll(new[] { NoteAsync, KeepTakeAsync, PutAsync, UploadAsync, ImportAsync, SeasonAsync, DeleteAsync }.Select(write => WriteAsync(() => write(service.Client))));
            var enough = Volatile.Read(ref acknowledged) + random.Next(1, 60);
            while ((Volatile.Read(ref acknowledged) < enough || (kill >= Kills && Volatile.Read(ref takes) == 0)) && !writers.IsCompleted) await Task.Delay(1, TestContext.Current.CancellationToken);
            await service.KillAsync();
            isKilled = true;
            await writers;
            await backingUp;
            await KillARestoreAsync(kill);
            TestContext.Current.TestOutputHelper!.WriteLine($"{++kills} times");
        }
        using (var last = await ServiceProcess.StartAsync("--data", Data, "--grid", valley.Grid))
        {
            await CheckAsync(last.Client);
            await last.KillAsync();
        }
        using var database = new SqliteConnection($"Data Source={Path.Combine(Data, "glowcast.db")};Pooling=False");
        database.Open();
        using var command = database.CreateCommand();
        command.CommandText = "PRAGMA integrity_check";
        Assert.Equal("ok", command.ExecuteScalar());
        Assert.True(lookouts.Count > Kills && grids.Count > 0 && imported > 0 && ranked > 0 && takes > 0, $"{lookouts.Count} lookouts, {grids.Count} grids, {imported} imports, {ranked} seasons, {takes} takes");
        TestContext.Current.TestOutputHelper!.WriteLine(
            $"{kills} kills each of the service, a backup and a restore; acknowledged and found again: {lookouts.Count} lookouts, {notes.Count} notes ({takes} of takes), {grids.Count} grids, {imported} imports, {ranked} seasons; {backups} backups and {restores} restores were whole before they were killed");
    }

    private async Task CheckAsync(HttpClient client)
    {
        var listed = (await GetAsync(client, "api/lookouts")).AsArray().ToDictionary(lookout => lookout!["id"]!.GetValue<string>(), lookout => lookout!["name"]!.GetValue<string>());
        foreach (var (id, name) in lookouts) Assert.Equal(name, listed[id]);
        var noted = (await GetAsync(client, "api/notes"))["notes"]!.AsArray().Select(note => note!["id"]!.GetValue<string>()).ToHashSet();
        Assert.Empty(notes.Except(noted));
        foreach (var job in imports.Concat(seasons)) Assert.Equal("done", await EndOfAsync(client, job));
        foreach (var season in seasons) Assert.NotNull((await GetAsync(client, $"{season}/result"))["days"]);
        // A grid that was kept but not spoken of is taken up again in a job that nobody has asked for.
        while ((await GetAsync(client, "api/jobs")).AsArray().Any(job => job!["state"]!.GetValue<string>() is "queued" or "running")) await Task.Delay(20, TestContext.Current.CancellationToken);
        imported += imports.Count;
        ranked += seasons.Count;
        imports.Clear();
        seasons.Clear();
        var present = (await GetAsync(client, "api/grids")).AsArray().Where(grid => grid!["id"]!.GetValue<string>() != Path.GetFileName(valley.Grid)).ToDictionary(grid => grid!["id"]!.GetValue<string>(), grid => grid!["grid"]!["name"]!.GetValue<string>());
        foreach (var id in grids.Except(uncertain)) Assert.True(present.ContainsKey(id), $"grid {id} is lost");
        // Those imported are deleted in time like the others.
        grids.Clear();
        grids.UnionWith(present.Keys);
        uncertain.Clear();
        // A file is whole if it still has the address that its name and bytes gave it.
        var files = Directory.EnumerateFiles(Path.Combine(Data, "grids")).ToList();
        Assert.Equal(present.Keys.Order(StringComparer.Ordinal), files.Select(Path.GetFileName).Order(StringComparer.Ordinal));
        foreach (var file in files) Assert.Equal(Path.GetFileName(file), AddressOf(present[Path.GetFileName(file)], await File.ReadAllBytesAsync(file, TestContext.Current.CancellationToken)));
        Assert.Empty(Directory.EnumerateFiles(Path.Combine(Data, "incoming")));
    }

    /// <summary>A job that was acknowledged is known, and is done in the end.</summary>
    private static async Task<string> EndOfAsync(HttpClient client, string job)
    {
        while (true)
        {
            var state = (await GetAsync(client, job))["state"]!.GetValue<string>();
            if (state is not ("queued" or "running")) return state;
            await Task.Delay(20, TestContext.Current.CancellationToken);
        }
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

    private async Task NoteAsync(HttpClient client)
    {
        await Task.Delay(20, TestContext.Current.CancellationToken);
        using var response = await PostAsync(client, "api/notes", new JsonObject { ["forecast"] = forecast, ["set"] = "whole" });
        await NotedAsync(response, "id");
    }

    private async Task KeepTakeAsync(HttpClient client)
    {
        await Task.Delay(20, TestContext.Current.CancellationToken);
        using var response = await PostAsync(client, "api/takes", ShotTake.KeptWith(forecast));
        await NotedAsync(response, "note");
        Interlocked.Increment(ref takes);
    }

    private async Task NotedAsync(HttpResponseMessage response, string field)
    {
        var id = JsonNode.Parse(await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))![field]!.GetValue<string>();
        lock (notes) notes.Add(id);
    }

    private async Task SeasonAsync(HttpClient client)
    {
        await Task.Delay(200, TestContext.Current.CancellationToken);
        var days = new JsonObject { ["plan"] = MadeValley.PlanWith(), ["from"] = "2026-03-20", ["to"] = "2026-03-21" };
        using var response = await PostAsync(client, "api/seasons", days);
        lock (seasons) seasons.Add(response.Headers.Location!.OriginalString);
    }

    private static async Task<HttpResponseMessage> PostAsync(HttpClient client, string path, JsonObject json)
    {
        using var body = new StringContent(json.ToJsonString(), Encoding.UTF8, "application/json");
        return (await client.PostAsync(new Uri(path, UriKind.Relative), body, TestContext.Current.CancellationToken)).EnsureSuccessStatusCode();
    }

    private static async Task<string> ForecastAsync(HttpClient client)
    {
        using var response = await PostAsync(client, "api/forecasts", MadeValley.PlanWith());
        return response.Content.Headers.ContentLocation!.OriginalString["/api/forecasts/".Length..];
    }

    /// <summary>What stands under the name of a backup is a whole one, and nothing that was kept lies with the temporary files.</summary>
    private async Task KillABackupAsync(int number)
    {
        var (folder, temporary) = (Path.Combine(valley.Folder, $"backup-{number}"), Path.Combine(valley.Folder, $"temporary-{number}"));
        Directory.CreateDirectory(folder);
        Directory.CreateDirectory(temporary);
        var file = Path.Combine(folder, "backup.zip");
        var before = lookouts.Keys.ToList();
        await KillAsync(temporary, backup, "data", "backup", "--data", Data, "--out", file);
        Assert.All(Directory.EnumerateFiles(temporary, "*.db*", SearchOption.AllDirectories), AssertHoldsNothing);
        if (File.Exists(file))
        {
            backups++;
            var restored = Path.Combine(folder, "restored");
            Assert.Empty(Backup.Restore(file, restored).Damaged);
            Assert.Empty(before.Except(LookoutsIn(restored)));
            File.Move(file, Path.Combine(valley.Folder, "last.zip"), overwrite: true);
        }
        Directory.Delete(folder, recursive: true);
        Directory.Delete(temporary, recursive: true);
    }

    private static void AssertHoldsNothing(string file)
    {
        // Killed in the moment between making the file and taking its name away.
        Assert.InRange(new FileInfo(file).Length, 0, 2 * 4096);
        Assert.DoesNotContain("CREATE TABLE document", File.ReadAllText(file, Encoding.Latin1), StringComparison.Ordinal);
    }

    private static List<string> LookoutsIn(string folder)
    {
        using var database = new SqliteConnection($"Data Source={Path.Combine(folder, "glowcast.db")};Pooling=False");
        database.Open();
        using var command = database.CreateCommand();
        command.CommandText = "SELECT id FROM document WHERE kind = 'lookouts'";
        using var rows = command.ExecuteReader();
        var ids = new List<string>();
        while (rows.Read()) ids.Add(rows.GetString(0));
        return ids;
    }

    /// <summary>A folder that was restored half is not taken for a data folder, and one that is taken for one is whole.</summary>
    private async Task KillARestoreAsync(int number)
    {
        var (file, folder) = (Path.Combine(valley.Folder, "last.zip"), Path.Combine(valley.Folder, $"restored-{number}"));
        if (!File.Exists(file)) return;
        await KillAsync(valley.Folder, restore, "data", "restore", "--from", file, "--data", folder);
        if (File.Exists(Path.Combine(folder, "glowcast.db")))
        {
            restores++;
            var again = Path.Combine(folder, "again.zip");
            Assert.Empty(Backup.Write(folder, again).Damaged);
        }
        else
        {
            Assert.False(File.Exists(Path.Combine(folder, "glowcast-folder")), "marked before it is whole");
        }
        if (Directory.Exists(folder)) Directory.Delete(folder, recursive: true);
    }

    /// <param name="span">In which it is killed; about every third comes to its end before.</param>
    private async Task KillAsync(string temporary, Span span, params IEnumerable<string> arguments)
    {
        var start = new ProcessStartInfo("dotnet", [typeof(CommandLine).Assembly.Location, .. arguments]) { RedirectStandardOutput = true, RedirectStandardError = true };
        start.Environment["TMPDIR"] = temporary;
        using var process = Process.Start(start)!;
        await Task.Delay(random.Next(80, (int)span.LongestMs), TestContext.Current.CancellationToken);
        span.LongestMs = Math.Clamp(span.LongestMs * (process.HasExited ? 0.8 : 1.12), 200, 20_000);
        process.Kill();
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
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

    /// <summary>Adapts to the machine.</summary>
    private sealed class Span
    {
        public double LongestMs { get; set; } = 900;
    }
}
