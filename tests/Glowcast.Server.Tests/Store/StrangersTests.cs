using System.Net;
using System.Security.Cryptography;
using System.Text.Json.Nodes;
using Glowcast.Engine.Measures;
using Glowcast.Server.Store;
using Microsoft.Data.Sqlite;

namespace Glowcast.Server.Tests.Store;

/// <summary>The program deletes only what it wrote itself and can prove it: what anybody else has put somewhere outlives whatever happens.</summary>
public sealed class StrangersTests : IAsyncDisposable
{
    private readonly DataOfATest data = new();

    public ValueTask DisposeAsync() => data.DisposeAsync();

    [Theory]
    [InlineData("notes.txt")]
    [InlineData("grids/N46E007.hgt", "incoming/IMG_0102.CR3")]
    [InlineData("grids/0123456789abcdef0123456789abcdef")]
    [InlineData("glowcast.db")]
    [InlineData("glowcast-folder", "grids/0123456789abcdef0123456789abcdef")]
    [InlineData("in-use")]
    public void A_folder_of_somebody_else_is_refused_and_left_as_it_is(params string[] names)
    {
        foreach (var name in names) Put(name);
        var before = Everything();
        for (var start = 0; start < 2; start++)
        {
            var refusal = Assert.Throws<BadInputException>(() => ServerHost.Build(new ServerOptions { DataFolder = data.Folder }));
            Assert.Contains("is not empty and no data folder", Assert.Single(refusal.Faults).Message, StringComparison.Ordinal);
            Assert.Equal(before, Everything());
        }
    }

    [Fact]
    public void A_folder_reached_through_a_link_is_judged_by_what_it_holds()
    {
        Put("grids/N46E007.hgt");
        var before = Everything();
        var link = data.Folder + "-link";
        Directory.CreateSymbolicLink(link, data.Folder);
        try
        {
            Assert.Throws<BadInputException>(() => ServerHost.Build(new ServerOptions { DataFolder = link }));
            Assert.Equal(before, Everything());
        }
        finally
        {
            File.Delete(link);
        }
    }

    [Fact]
    public void A_database_of_another_program_is_not_ours_whatever_its_name()
    {
        using (var other = Connect()) other.Execute("CREATE TABLE document (title TEXT); PRAGMA user_version = 3");
        Put("grids/N46E007.hgt");
        var before = Everything();
        Assert.Throws<BadInputException>(() => ServerHost.Build(new ServerOptions { DataFolder = data.Folder }));
        Assert.Equal(before, Everything());
    }

    [Fact]
    public async Task A_folder_of_an_earlier_release_is_taken_over_and_nothing_in_it_is_deleted()
    {
        using (await data.StartAsync()) await data.StopAsync();
        foreach (var name in (string[])[DataMarker.FileName, GridLedger.FileName, RoomToDelete.FileName]) File.Delete(Path.Combine(data.Folder, name));
        Put("grids/N46E007.hgt");
        Put("grids/0123456789abcdef0123456789abcdef");
        Put("incoming/0123456789abcdef0123456789abcdef");
        Put("incoming/half.part");
        var before = Strangers();

        for (var start = 0; start < 3; start++)
            using (await data.StartAsync()) Assert.Equal(before, Strangers());
        Assert.True(File.Exists(Path.Combine(data.Folder, DataMarker.FileName)));
    }

    [Fact]
    public async Task Files_put_into_the_data_folder_outlive_every_later_start()
    {
        using (await data.StartAsync()) await data.StopAsync();
        Put("N46E007.hgt");
        Put("grids/N46E007.hgt");
        Put("grids/0123456789abcdef0123456789abcdef");
        Put("grids/folder/photograph.jpg");
        Put("incoming/photograph.jpg");
        Put("incoming/0123456789abcdef0123456789abcdef-0123456789abcdef0123456789abcdef.part");
        var before = Strangers();
        for (var start = 0; start < 3; start++)
            using (await data.StartAsync()) Assert.Equal(before, Strangers());
    }

    [Theory]
    [InlineData("grids")]
    [InlineData("incoming")]
    public async Task A_link_inside_the_data_folder_is_not_followed(string name)
    {
        using (await data.StartAsync()) await data.StopAsync();
        var elsewhere = Directory.CreateTempSubdirectory("glowcast-test-");
        try
        {
            File.WriteAllText(Path.Combine(elsewhere.FullName, "photograph.jpg"), "not ours");
            Directory.Delete(Path.Combine(data.Folder, name));
            Directory.CreateSymbolicLink(Path.Combine(data.Folder, name), elsewhere.FullName);
            var refusal = Assert.Throws<BadInputException>(() => ServerHost.Build(new ServerOptions { DataFolder = data.Folder }));
            Assert.Contains("symbolic link", Assert.Single(refusal.Faults).Message, StringComparison.Ordinal);
            Assert.Equal("not ours", File.ReadAllText(Path.Combine(elsewhere.FullName, "photograph.jpg")));
        }
        finally
        {
            File.Delete(Path.Combine(data.Folder, name));
            elsewhere.Delete(recursive: true);
        }
    }

    [Fact]
    public async Task Half_files_of_ours_are_tidied_away_through_no_link()
    {
        using (await data.StartAsync()) await data.StopAsync();
        var marker = DataMarker.Read(data.Folder)!;
        Put("photograph.jpg");
        Put($"incoming/{marker.Id}-{Guid.NewGuid():N}.part");
        File.CreateSymbolicLink(Path.Combine(data.Folder, "incoming", $"{marker.Id}-{Guid.NewGuid():N}.part"), Path.Combine(data.Folder, "photograph.jpg"));
        using var again = await data.StartAsync();
        Assert.True(new FileInfo(Assert.Single(data.HalfFiles)).LinkTarget is not null);
        Assert.True(File.Exists(Path.Combine(data.Folder, "photograph.jpg")));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Grids_whose_database_was_moved_away_or_names_another_are_taken_up_again(bool isMovedAway)
    {
        var id = await KeepAGridAsync();
        var before = Everything()[$"grids/{id}"];
        if (isMovedAway)
        {
            foreach (var file in Directory.EnumerateFiles(data.Folder, DataFolder.DatabaseName + "*")) File.Delete(file);
        }
        else
        {
            using var database = Connect();
            Assert.Equal(1, database.Execute("UPDATE grid SET id = $flipped", ("$flipped", (char)(id[0] ^ 1) + id[1..])));
        }

        using var client = await data.StartAsync();
        await UntilKeptAsync(client, id);

        Assert.Equal(before, Everything()[$"grids/{id}"]);
        using var relief = await client.SendJsonAsync(HttpMethod.Get, $"/api/grids/{id}/hillshade");
        Assert.Equal(HttpStatusCode.OK, relief.StatusCode);
    }

    [Fact]
    public async Task A_grid_whose_deletion_was_cut_off_is_gone_after_the_next_start()
    {
        var id = await KeepAGridAsync();
        new GridLedger(data.Folder).Delete(id);
        using (var database = Connect()) database.Execute("DELETE FROM grid");
        using var client = await data.StartAsync();
        Assert.Empty(data.GridFiles);
    }

    [Fact]
    public async Task What_stands_where_a_grid_belongs_is_neither_written_over_nor_read_nor_deleted()
    {
        var bytes = MadeGrid.Ascii(1);
        var id = await KeepAGridAsync();
        var path = Path.Combine(data.Folder, "grids", id);
        File.Delete(path);
        Directory.CreateDirectory(path);
        using var client = await data.StartAsync();
        using (var relief = await client.SendJsonAsync(HttpMethod.Get, $"/api/grids/{id}/hillshade")) Assert.Equal(HttpStatusCode.NotFound, relief.StatusCode);
        await client.UploadAsync("slope.asc", bytes).ProblemAsync(HttpStatusCode.UnprocessableEntity);
        using (var deleted = await client.SendJsonAsync(HttpMethod.Delete, $"/api/grids/{id}")) Assert.Equal(HttpStatusCode.NoContent, deleted.StatusCode);
        Assert.True(Directory.Exists(path));
    }

    /// <summary>A reader would wait for ever for what somebody writes into it.</summary>
    [Theory]
    [InlineData("grids")]
    [InlineData("glowcast-room")]
    [InlineData("glowcast-folder")]
    public async Task A_pipe_where_a_file_of_ours_belongs_keeps_nobody_waiting(string place)
    {
        var id = await KeepAGridAsync();
        await PutAPipeAsync(place == "grids" ? Path.Combine(place, id) : place);

        using var client = await data.StartAsync();
        using (var relief = await client.SendJsonAsync(HttpMethod.Get, $"/api/grids/{id}/hillshade"))
            Assert.Equal(place == "grids" ? HttpStatusCode.NotFound : HttpStatusCode.OK, relief.StatusCode);
        var backup = Path.Combine(Path.GetTempPath(), $"glowcast-{Guid.NewGuid():N}.zip");
        Assert.Equal(place == "grids" ? 1 : 0, Backup.Write(data.Folder, backup).Damaged.Count);
        File.Delete(backup);
        using var deleted = await client.SendJsonAsync(HttpMethod.Delete, $"/api/grids/{id}");
        Assert.Equal(HttpStatusCode.NoContent, deleted.StatusCode);
    }

    [Fact]
    public async Task A_pipe_in_place_of_the_ledger_is_refused()
    {
        await KeepAGridAsync();
        await PutAPipeAsync("glowcast-grids.jsonl");
        Assert.Contains("glowcast-grids.jsonl is no file", (await Assert.ThrowsAsync<BadInputException>(() => data.StartAsync())).Message, StringComparison.Ordinal);
    }

    private async Task PutAPipeAsync(string place)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "named pipes are made by mkfifo");
        var path = Path.Combine(data.Folder, place);
        File.Delete(path);
        using var made = System.Diagnostics.Process.Start("mkfifo", [path]);
        await made.WaitForExitAsync(TestContext.Current.CancellationToken);
    }

    [Fact]
    public void A_passing_folder_goes_with_its_service_or_with_the_next_and_leaves_what_is_not_its_own()
    {
        string folder, forgotten = PassingFolder.Make();
        using (var passing = DataFolder.Open(null))
        {
            folder = passing.Path;
            Assert.True(Directory.Exists(forgotten), "without a marker it may be anybody's");
            // As a killed service leaves it: marked, and nobody has it.
            DataMarker.New(isPassing: true).Write(forgotten);
            File.WriteAllText(Path.Combine(folder, "notes.txt"), "mine");
        }
        Assert.Equal([Path.Combine(folder, "notes.txt")], Directory.EnumerateFileSystemEntries(folder));
        Directory.Delete(folder, recursive: true);

        using (DataFolder.Open(null)) Assert.False(Directory.Exists(forgotten));
    }

    [Fact]
    public async Task A_line_of_the_ledger_that_was_cut_off_is_passed_over()
    {
        var id = await KeepAGridAsync();
        File.AppendAllText(Path.Combine(data.Folder, GridLedger.FileName), """{"id":"0123""");
        var ledger = new GridLedger(data.Folder);
        ledger.Keep(("feed", "other.asc", 3));
        ledger = new GridLedger(data.Folder);
        Assert.Equal(("slope.asc", "other.asc"), (ledger.Of(id)!.Name, ledger.Of("feed")!.Name));
    }

    private async Task<string> KeepAGridAsync()
    {
        using var client = await data.StartAsync();
        var kept = await client.UploadAsync("slope.asc", MadeGrid.Ascii(1)).JsonAsync(HttpStatusCode.Created);
        await data.StopAsync();
        return kept["id"]!.GetValue<string>();
    }

    private static async Task UntilKeptAsync(HttpClient client, string id)
    {
        JsonArray grids;
        do grids = (await client.SendJsonAsync(HttpMethod.Get, "/api/grids").JsonAsync()).AsArray();
        while (!grids.Any(grid => grid!["id"]!.GetValue<string>() == id) && await WaitAsync());

        static async Task<bool> WaitAsync()
        {
            await Task.Delay(20, TestContext.Current.CancellationToken);
            return true;
        }
    }

    private void Put(string name)
    {
        var path = Path.Combine(data.Folder, name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllText(path, $"not ours: {name}");
    }

    /// <summary>Every file and what is in it.</summary>
    private SortedDictionary<string, string> Everything() => new(
        Files().ToDictionary(path => Path.GetRelativePath(data.Folder, path), path => Convert.ToHexString(SHA256.HashData(File.ReadAllBytes(path)))), StringComparer.Ordinal);

    private List<KeyValuePair<string, string>> Strangers() =>
        [.. Files().Where(path => new FileInfo(path).Length < 200).Select(path => KeyValuePair.Create(path, File.ReadAllText(path))).Where(file => file.Value.StartsWith("not ours: ", StringComparison.Ordinal))];

    // But the one that tells a second service that the folder is in use: nobody can read it then.
    private IEnumerable<string> Files() => Directory.EnumerateFiles(data.Folder, "*", SearchOption.AllDirectories).Where(path => data.IsStopped || Path.GetFileName(path) != DataFolder.LockName).Order(StringComparer.Ordinal);

    private SqliteConnection Connect()
    {
        var connection = new SqliteConnection($"Data Source={Path.Combine(data.Folder, DataFolder.DatabaseName)};Pooling=False");
        connection.Open();
        return connection;
    }
}
