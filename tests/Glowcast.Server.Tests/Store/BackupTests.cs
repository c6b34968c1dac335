using System.IO.Compression;
using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using Glowcast.Engine.Measures;
using Glowcast.Server.Store;
using Microsoft.Data.Sqlite;

namespace Glowcast.Server.Tests.Store;

/// <summary>A backup holds what was kept, or says what it does not hold; a restore brings that back, or leaves nothing.</summary>
public sealed class BackupTests : IAsyncDisposable
{
    private readonly DataOfATest data = new();
    private readonly string work = Directory.CreateTempSubdirectory("glowcast-test-").FullName;

    private string File1 => Path.Combine(work, "backup.zip");

    private string Restored => Path.Combine(work, "restored");

    public async ValueTask DisposeAsync()
    {
        await data.DisposeAsync();
        Directory.Delete(work, recursive: true);
    }

    [Fact]
    public async Task A_backup_is_for_its_owner_alone_and_leaves_no_copy_behind()
    {
        await FillAsync();
        var before = Directory.EnumerateFileSystemEntries(Path.GetTempPath(), "glowcast-copy-*").ToList();
        Assert.Equal((2, 0), CountsOf(Backup.Write(data.Folder, File1)));
        if (!OperatingSystem.IsWindows()) Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(File1));
        Assert.Equal([File1], Directory.EnumerateFileSystemEntries(work));
        Assert.Empty(Directory.EnumerateFileSystemEntries(Path.GetTempPath(), "glowcast-copy-*").Except(before));
        Assert.Throws<BadInputException>(() => Backup.Write(data.Folder, File1));
        Assert.Equal((2, 0), CountsOf(Backup.Restore(File1, Restored)));
        Assert.Equal(["glowcast-folder", "glowcast-grids.jsonl", "glowcast.db", "grids"], Directory.EnumerateFileSystemEntries(Restored).Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_grid_that_is_not_as_it_was_kept_is_left_out_and_named(bool isMissing)
    {
        var ids = await FillAsync();
        var path = Path.Combine(data.Folder, "grids", ids[0]);
        if (isMissing) File.Delete(path);
        else Flip(path, 100);
        var written = Backup.Write(data.Folder, File1);
        Assert.Equal((1, 1), CountsOf(written));
        Assert.Contains(ids[0], written.Damaged[0], StringComparison.Ordinal);
        Assert.Equal((1, 0), CountsOf(Backup.Restore(File1, Restored)));
    }

    [Fact]
    public async Task Of_a_backup_with_a_damaged_grid_all_else_is_restored()
    {
        var ids = await FillAsync();
        Backup.Write(data.Folder, File1);
        Replace($"grids/{ids[0]}", [.. MadeGrid.Ascii(1).Select((part, i) => i == 50 ? (byte)(part ^ 1) : part)]);
        var outcome = Backup.Restore(File1, Restored);
        Assert.Equal((1, 1), CountsOf(outcome));
        Assert.Contains("slope.asc", outcome.Damaged[0], StringComparison.Ordinal);
        Assert.Equal([ids[1]], Directory.EnumerateFiles(Path.Combine(Restored, "grids")).Select(Path.GetFileName));
    }

    [Fact]
    public async Task No_flipped_bit_in_a_backup_restores_anything_but_what_was_kept()
    {
        await FillAsync();
        Backup.Write(data.Folder, File1);
        var whole = await File.ReadAllBytesAsync(File1, TestContext.Current.CancellationToken);
        var random = new Random(18);
        for (var i = 0; i < 150; i++)
        {
            var (damaged, folder) = (Path.Combine(work, "damaged.zip"), Path.Combine(work, $"restored-{i}"));
            var bytes = whole.ToArray();
            bytes[random.Next(bytes.Length)] ^= (byte)(1 << random.Next(8));
            await File.WriteAllBytesAsync(damaged, bytes, TestContext.Current.CancellationToken);
            try
            {
                _ = Backup.Restore(damaged, folder);
                using var restored = new SqliteConnection($"Data Source={Path.Combine(folder, "glowcast.db")};Pooling=False");
                restored.Open();
                Assert.Equal("ok", restored.Scalar<string>("PRAGMA integrity_check"));
                Assert.Equal("Saddle", restored.Scalar<string>("SELECT name FROM document"));
                foreach (var (id, name) in restored.Query("SELECT id, file_name FROM grid", row => (row.GetString(0), row.GetString(1)))) Assert.Equal(id, GridAddress.Of(name, Path.Combine(folder, "grids", id)));
            }
            catch (BadInputException)
            {
                Assert.False(Directory.Exists(folder), "a restore that failed has left its folder");
            }
        }
    }

    [Theory]
    [InlineData("nothing")]
    [InlineData("text")]
    [InlineData("foreign")]
    [InlineData("bomb")]
    [InlineData("later")]
    public async Task A_backup_without_a_database_of_ours_is_refused_and_leaves_nothing(string kind)
    {
        await FillAsync();
        Backup.Write(data.Folder, File1);
        Replace("glowcast.db", kind switch
        {
            "nothing" => [],
            "text" => Encoding.ASCII.GetBytes(new string('x', 5000)),
            "bomb" => new byte[64 << 20],
            _ => Foreign(kind),
        });
        Assert.Throws<BadInputException>(() => Backup.Restore(File1, Restored));
        Assert.False(Directory.Exists(Restored));
        Directory.CreateDirectory(Restored);
        Assert.Throws<BadInputException>(() => Backup.Restore(File1, Restored));
        Assert.Empty(Directory.EnumerateFileSystemEntries(Restored));
    }

    [Fact]
    public async Task A_damaged_database_is_not_backed_up_as_if_it_were_whole()
    {
        await FillAsync();
        Damage.Pages(Path.Combine(data.Folder, "glowcast.db"), new Random(3), pages: 12);
        Assert.Contains("salvage", Assert.Throws<BadInputException>(() => Backup.Write(data.Folder, File1)).Message, StringComparison.Ordinal);
        Assert.Empty(Directory.EnumerateFileSystemEntries(work));
    }

    private async Task<string[]> FillAsync()
    {
        using var client = await data.StartAsync();
        await client.SendJsonAsync(HttpMethod.Put, "/api/lookouts/saddle", new JsonObject { ["name"] = "Saddle", ["lookout"] = new JsonObject { ["latitudeDeg"] = 46.5, ["longitudeDeg"] = 7.5 } }).JsonAsync(HttpStatusCode.Created);
        var (first, second) = (await client.UploadAsync("slope.asc", MadeGrid.Ascii(1)).JsonAsync(HttpStatusCode.Created), await client.UploadAsync("other.asc", MadeGrid.Ascii(2)).JsonAsync(HttpStatusCode.Created));
        await data.StopAsync();
        return [first["id"]!.GetValue<string>(), second["id"]!.GetValue<string>()];
    }

    private byte[] Foreign(string kind)
    {
        var path = Path.Combine(data.Folder, "foreign");
        using (var database = new SqliteConnection($"Data Source={path};Pooling=False"))
        {
            database.Open();
            database.Execute("CREATE TABLE document (title TEXT); CREATE TABLE grid (id TEXT, file_name TEXT, bytes INTEGER)");
            database.Execute(kind == "later" ? "PRAGMA user_version = 999" : "PRAGMA user_version = 6");
        }
        return File.ReadAllBytes(path);
    }

    private void Replace(string name, byte[] content)
    {
        using var archive = ZipFile.Open(File1, ZipArchiveMode.Update);
        archive.GetEntry(name)!.Delete();
        using var entry = archive.CreateEntry(name).Open();
        entry.Write(content);
    }

    private static void Flip(string path, int at)
    {
        var bytes = File.ReadAllBytes(path);
        bytes[at] ^= 1;
        File.WriteAllBytes(path, bytes);
    }

    private static (int Grids, int Damaged) CountsOf(BackupOutcome outcome) => (outcome.Grids, outcome.Damaged.Count);
}
