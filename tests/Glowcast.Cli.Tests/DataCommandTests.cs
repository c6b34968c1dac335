using System.IO.Compression;
using System.Net;
using System.Text;
using System.Text.Json;

namespace Glowcast.Cli.Tests;

public class DataCommandTests(MadeValley valley) : IClassFixture<MadeValley>
{
    [Fact]
    public async Task A_backup_taken_while_the_service_runs_brings_everything_back()
    {
        var (data, restored, backup) = (Path.Combine(valley.Folder, "data"), Path.Combine(valley.Folder, "restored"), Path.Combine(valley.Folder, "backup.zip"));
        string grid;
        await using (var service = new RunningCommand("serve", "--urls", "http://127.0.0.1:0", "--data", data))
        {
            using var client = new HttpClient { BaseAddress = await service.AddressAsync() };
            using var lookout = new StringContent("""{ "name": "Saddle", "lookout": { "latitudeDeg": 46, "longitudeDeg": 7 } }""", Encoding.UTF8, "application/json");
            using var put = await client.PutAsync(new Uri("api/lookouts/saddle", UriKind.Relative), lookout, TestContext.Current.CancellationToken);
            Assert.Equal(HttpStatusCode.Created, put.StatusCode);
            using var file = new ByteArrayContent(await File.ReadAllBytesAsync(valley.Grid, TestContext.Current.CancellationToken));
            file.Headers.ContentType = new("application/octet-stream");
            using var post = await client.PostAsync(new Uri("api/grids?name=made.asc", UriKind.Relative), file, TestContext.Current.CancellationToken);
            grid = JsonDocument.Parse(await post.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)).RootElement.GetProperty("id").GetString()!;

            Assert.Equal(0, (await Outcome.Of("data", "backup", "--data", data, "--out", backup)).Exit);
        }
        Assert.Equal(0, (await Outcome.Of("data", "restore", "--from", backup, "--data", restored)).Exit);

        await using var again = new RunningCommand("serve", "--urls", "http://127.0.0.1:0", "--data", restored);
        using var other = new HttpClient { BaseAddress = await again.AddressAsync() };
        Assert.Contains("Saddle", await other.GetStringAsync(new Uri("api/lookouts/saddle", UriKind.Relative), TestContext.Current.CancellationToken), StringComparison.Ordinal);
        using var relief = await other.GetAsync(new Uri($"api/grids/{grid}/hillshade", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, relief.StatusCode);
    }

    [Fact]
    public async Task What_is_damaged_is_named_and_all_else_is_done()
    {
        var (data, backup, saved) = (Path.Combine(valley.Folder, "partly"), Path.Combine(valley.Folder, "partly.zip"), Path.Combine(valley.Folder, "saved"));
        string id;
        await using (var service = new RunningCommand("serve", "--urls", "http://127.0.0.1:0", "--data", data))
        {
            using var client = new HttpClient { BaseAddress = await service.AddressAsync() };
            using var file = new ByteArrayContent(await File.ReadAllBytesAsync(valley.Grid, TestContext.Current.CancellationToken));
            file.Headers.ContentType = new("application/octet-stream");
            using var post = await client.PostAsync(new Uri("api/grids?name=made.asc", UriKind.Relative), file, TestContext.Current.CancellationToken);
            id = JsonDocument.Parse(await post.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)).RootElement.GetProperty("id").GetString()!;
        }
        await File.AppendAllTextAsync(Path.Combine(data, "grids", id), " ", TestContext.Current.CancellationToken);

        var partly = await Outcome.Of("data", "backup", "--data", data, "--out", backup);
        Assert.Equal(2, partly.Exit);
        Assert.Contains($"made.asc ({id})", partly.Error, StringComparison.Ordinal);
        Assert.True(File.Exists(backup));
        var salvaged = await Outcome.Of("data", "salvage", "--data", data, "--to", saved);
        Assert.Equal(2, salvaged.Exit);
        Assert.True(File.Exists(Path.Combine(saved, "glowcast.db")));
        Assert.Equal(["--data", "--to"], (await Outcome.Of("data", "salvage")).Faults);
        Assert.Equal(["--to"], (await Outcome.Of("data", "salvage", "--data", data, "--to", saved)).Faults);
    }

    [Fact]
    public async Task Folders_and_files_that_will_not_do_are_said()
    {
        Assert.Equal(["--data"], (await Outcome.Of("data", "backup", "--data", valley.Folder, "--out", Path.Combine(valley.Folder, "none.zip"))).Faults);
        Assert.Equal(["--data"], (await Outcome.Of("data", "restore", "--from", valley.Plan, "--data", valley.Folder)).Faults);
        var data = Path.Combine(valley.Folder, "new");
        Assert.Equal(["--from"], (await Outcome.Of("data", "restore", "--from", "nowhere.zip", "--data", data)).Faults);
        Assert.Equal(["--from"], (await Outcome.Of("data", "restore", "--from", valley.Plan, "--data", data)).Faults);
        Assert.Equal(["--from", "--data"], (await Outcome.Of("data", "restore", "--from", valley.Folder, "--data", valley.Plan)).Faults);
        Assert.Equal(["--out"], (await Outcome.Of("data", "backup", "--data", valley.Folder, "--out", valley.Folder)).Faults);
        Assert.Equal(["--out"], (await Outcome.Of("data", "backup", "--data", valley.Folder, "--out", valley.Plan)).Faults);
        Assert.Equal(["--out"], (await Outcome.Of("data", "backup", "--data", valley.Folder, "--out", Path.Combine(valley.Folder, "nowhere", "backup.zip"))).Faults);
        Assert.Equal(["--data", "--out"], (await Outcome.Of("data", "backup")).Faults);
    }

    [Fact]
    public async Task What_the_system_refuses_is_told_in_our_words()
    {
        var data = Path.Combine(valley.Folder, "refused-data");
        await using (var service = new RunningCommand("serve", "--urls", "http://127.0.0.1:0", "--data", data))
        {
            await service.AddressAsync();
            var second = await Outcome.Of("serve", "--urls", "http://127.0.0.1:0", "--data", data);
            Assert.Equal(["--data"], second.Faults);
            Assert.EndsWith("is in use by another service; end that one, or name another folder.", second.Error.TrimEnd(), StringComparison.Ordinal);
        }
        await File.WriteAllTextAsync(Path.Combine(data, "glowcast.db"), "no database at all, and long enough to be looked at", TestContext.Current.CancellationToken);
        var broken = await Outcome.Of("serve", "--urls", "http://127.0.0.1:0", "--data", data);
        Assert.Contains("is no database that can be opened (SQLite error 26)", broken.Error, StringComparison.Ordinal);
        Assert.SkipUnless(Directory.Exists("/proc"), "needs Linux, where nobody can make files in /proc");
        Assert.Contains("Cannot be used as a data folder: nothing is there, or nothing can be made there", (await Outcome.Of("serve", "--data", "/proc/glowcast")).Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_written_and_what_is_filled_can_be_had_as_json()
    {
        var (data, backup, restored) = (Path.Combine(valley.Folder, "json-data"), Path.Combine(valley.Folder, "json.zip"), Path.Combine(valley.Folder, "json-restored"));
        await using (var service = new RunningCommand("serve", "--port", "0", "--data", data, "--json"))
        {
            var address = await service.AddressAsync();
            var said = JsonDocument.Parse(service.Out).RootElement;
            Assert.Equal(address, new Uri(said.GetProperty("addresses")[0].GetString()!));
            Assert.Equal(data, said.GetProperty("data").GetString());
        }
        var written = (await Outcome.Of("data", "backup", "--data", data, "--out", backup, "--json")).Json;
        Assert.Equal((backup, 0), (written.GetProperty("backup").GetString(), written.GetProperty("grids").GetInt32()));
        Assert.Equal(restored, (await Outcome.Of("data", "restore", "--from", backup, "--data", restored, "--json")).Json.GetProperty("data").GetString());
    }

    [Fact]
    public async Task Entries_of_an_archive_that_point_elsewhere_are_not_followed()
    {
        var (backup, data) = (Path.Combine(valley.Folder, "evil.zip"), Path.Combine(valley.Folder, "evil-data"));
        await using (var archive = await ZipFile.OpenAsync(backup, ZipArchiveMode.Create, TestContext.Current.CancellationToken))
        {
            await using var entry = await archive.CreateEntry("../escaped").OpenAsync(TestContext.Current.CancellationToken);
            await entry.WriteAsync("evil"u8.ToArray(), TestContext.Current.CancellationToken);
        }
        Assert.Equal(["--from"], (await Outcome.Of("data", "restore", "--from", backup, "--data", data)).Faults);
        Assert.False(File.Exists(Path.Combine(valley.Folder, "escaped")));
    }
}
