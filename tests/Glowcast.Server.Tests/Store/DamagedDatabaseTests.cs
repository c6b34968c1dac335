using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using Glowcast.Engine.Measures;
using Glowcast.Server.Store;
using Microsoft.Data.Sqlite;

namespace Glowcast.Server.Tests.Store;

/// <summary>A damaged database is said to be damaged; what can be read of it is read, and nothing is written. 60 damages a run, or as many as
/// <c>GLOWCAST_DAMAGED_DATABASES</c> says.</summary>
public sealed class DamagedDatabaseTests : IAsyncDisposable
{
    private const int Lookouts = 120;

    private static readonly int Damages = int.Parse(Environment.GetEnvironmentVariable("GLOWCAST_DAMAGED_DATABASES") ?? "60", CultureInfo.InvariantCulture);

    private static readonly string[] Lists = ["/api/lookouts", "/api/plans", "/api/grids", "/api/notes", "/api/jobs", "/api/lookouts/saddle-7"];

    private readonly DataOfATest data = new();
    private readonly string work = Directory.CreateTempSubdirectory("glowcast-test-").FullName;

    private string Database => Path.Combine(data.Folder, DataFolder.DatabaseName);

    public async ValueTask DisposeAsync()
    {
        await data.DisposeAsync();
        Directory.Delete(work, recursive: true);
    }

    [Fact]
    public async Task No_damage_gives_a_bare_fault_or_lets_anything_be_written_unsaid()
    {
        await FillAsync();
        var whole = await File.ReadAllBytesAsync(Database, TestContext.Current.CancellationToken);
        var random = new Random(18);
        var (refused, readOnly, unnoticed, saved) = (0, 0, 0, 0);
        for (var i = 0; i < Damages; i++)
        {
            foreach (var file in Directory.EnumerateFiles(data.Folder, "glowcast.db*")) File.Delete(file);
            await File.WriteAllBytesAsync(Database, whole, TestContext.Current.CancellationToken);
            if (i % 2 == 0) Damage.Pages(Database, random, 1 + random.Next(3));
            else Damage.Bits(Database, random, 1 + random.Next(40));
            var damaged = await File.ReadAllBytesAsync(Database, TestContext.Current.CancellationToken);
            try
            {
                using var client = await data.StartAsync();
                foreach (var path in Lists)
                {
                    using var answer = await client.SendJsonAsync(HttpMethod.Get, path);
                    Assert.True(answer.StatusCode is HttpStatusCode.OK or HttpStatusCode.NotFound or HttpStatusCode.ServiceUnavailable, $"damage {i}: {path} {answer.StatusCode}");
                }
                using var put = await client.SendJsonAsync(HttpMethod.Put, "/api/lookouts/new", Lookout("New"));
                Assert.True(put.StatusCode is HttpStatusCode.Created or HttpStatusCode.ServiceUnavailable, $"damage {i}: {put.StatusCode}");
                if (put.StatusCode == HttpStatusCode.Created) unnoticed++;
                else readOnly++;
                await data.StopAsync();
                if (put.StatusCode == HttpStatusCode.ServiceUnavailable) Assert.Equal(damaged, await File.ReadAllBytesAsync(Database, TestContext.Current.CancellationToken));
            }
            catch (BadInputException)
            {
                refused++;
            }
            await data.StopAsync();
            foreach (var file in Directory.EnumerateFiles(data.Folder, "glowcast.db*")) File.Delete(file);
            await File.WriteAllBytesAsync(Database, damaged, TestContext.Current.CancellationToken);
            var outcome = Salvage.Into(data.Folder, Path.Combine(work, $"saved-{i}"));
            Assert.Equal(1, outcome.Grids);
            saved += outcome.Documents;
            Directory.Delete(Path.Combine(work, $"saved-{i}"), recursive: true);
        }
        TestContext.Current.TestOutputHelper!.WriteLine($"{Damages} damages: {refused} refused at the start, {readOnly} read only, {unnoticed} not to be noticed; salvage saved {saved} of {Damages * Lookouts} lookouts");
        Assert.True(readOnly > 0);
    }

    [Theory]
    [InlineData("UPDATE document SET json = 'no JSON' WHERE id = 'saddle-7'")]
    [InlineData("UPDATE document SET changed = 'never' WHERE id = 'saddle-7'")]
    public async Task One_bad_row_takes_no_list_with_it(string damage)
    {
        await FillAsync();
        using (var database = Connect()) database.Execute(damage);
        using var client = await data.StartAsync();
        var listed = (await client.SendJsonAsync(HttpMethod.Get, "/api/lookouts").JsonAsync()).AsArray();
        Assert.Equal(Lookouts - 1, listed.Count);
        var problem = await client.SendJsonAsync(HttpMethod.Get, "/api/lookouts/saddle-7").ProblemAsync(HttpStatusCode.ServiceUnavailable);
        Assert.Contains("salvage", problem["detail"]!.GetValue<string>(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Of_a_damaged_database_what_can_be_read_is_answered_and_saved_and_nothing_is_written()
    {
        await FillAsync();
        var random = new Random(5);
        do Damage.Pages(Database, random, 1);
        while (IsWhole());
        var before = await File.ReadAllBytesAsync(Database, TestContext.Current.CancellationToken);
        using (var client = await data.StartAsync())
        {
            await client.SendJsonAsync(HttpMethod.Get, "/health").JsonAsync();
            await client.SendJsonAsync(HttpMethod.Put, "/api/lookouts/new", Lookout("New")).ProblemAsync(HttpStatusCode.ServiceUnavailable);
            await client.UploadAsync("other.asc", MadeGrid.Ascii(2)).ProblemAsync(HttpStatusCode.ServiceUnavailable);
            await data.StopAsync();
        }
        Assert.Equal(before, await File.ReadAllBytesAsync(Database, TestContext.Current.CancellationToken));

        var outcome = Salvage.Into(data.Folder, Path.Combine(work, "saved"));
        Assert.True(outcome.Documents > Lookouts / 2, $"{outcome.Documents} saved");
        using var saved = ServerHost.Build(new ServerOptions { Urls = "http://127.0.0.1:0", DataFolder = Path.Combine(work, "saved") });
        await saved.StartAsync(TestContext.Current.CancellationToken);
        using var again = new HttpClient { BaseAddress = new Uri(saved.Urls.Single()) };
        Assert.Equal(outcome.Documents, (await again.SendJsonAsync(HttpMethod.Get, "/api/lookouts").JsonAsync()).AsArray().Count);
        await saved.StopAsync(TestContext.Current.CancellationToken);
    }

    private async Task FillAsync()
    {
        using var client = await data.StartAsync();
        for (var i = 0; i < Lookouts; i++) await client.SendJsonAsync(HttpMethod.Put, $"/api/lookouts/saddle-{i}", Lookout($"Saddle {i} {new string('x', 80)}")).JsonAsync(HttpStatusCode.Created);
        await client.UploadAsync("slope.asc", MadeGrid.Ascii(1)).JsonAsync(HttpStatusCode.Created);
        await data.StopAsync();
    }

    private bool IsWhole()
    {
        using var database = Connect();
        return DatabaseCheck.IsWhole(database);
    }

    private SqliteConnection Connect()
    {
        var connection = new SqliteConnection($"Data Source={Database};Pooling=False");
        connection.Open();
        return connection;
    }

    private static JsonObject Lookout(string name) => new() { ["name"] = name, ["lookout"] = new JsonObject { ["latitudeDeg"] = 46.5, ["longitudeDeg"] = 7.5 } };
}
