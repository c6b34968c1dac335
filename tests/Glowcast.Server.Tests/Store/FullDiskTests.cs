using System.Diagnostics;
using System.Net;
using System.Text.Json.Nodes;
using Glowcast.Engine.Measures;
using Glowcast.Server.Problems;
using Glowcast.Server.Store;
using Microsoft.Data.Sqlite;

namespace Glowcast.Server.Tests.Store;

public class FullDiskTests
{
    public static bool HasFullDevice => File.Exists("/dev/full");

    public static bool CanMount { get; } = OperatingSystem.IsLinux() && Environment.UserName == "root" && TryMount();

    [Fact(SkipUnless = nameof(HasFullDevice), Skip = "no /dev/full on this machine")]
    public void A_file_that_finds_no_room_is_a_problem_that_says_so()
    {
        // /dev/full answers every write as a full disk does: full(4).
        var full = Assert.ThrowsAny<IOException>(() =>
        {
            using var device = new FileStream("/dev/full", FileMode.Open, FileAccess.Write, FileShare.ReadWrite, 0);
            device.Write(new byte[1]);
        });
        Assert.Equal(507, FaultsAsProblems.ProblemOf(full)!.Status);
    }

    [Fact]
    public void A_database_that_finds_no_room_is_a_problem_that_says_so()
    {
        using var database = new SqliteConnection("Data Source=:memory:");
        database.Open();
        Migrations.BringForward(database);
        database.Execute("PRAGMA max_page_count = 1");
        var full = Assert.Throws<SqliteException>(() => database.Execute(
            "INSERT INTO document VALUES ('lookouts', 'saddle', 'Saddle', $json, '')", ("$json", new string('x', 1 << 20))));
        Assert.Equal(507, FaultsAsProblems.ProblemOf(full)!.Status);
    }

    [Fact(SkipUnless = nameof(CanMount), Skip = "a small disk can be mounted by root on Linux only")]
    public async Task On_a_full_disk_uploads_and_writes_are_refused_and_what_was_kept_stays()
    {
        await using var data = new DataOfATest();
        Run("mount", "-t", "tmpfs", "-o", "size=2m", "tmpfs", data.Folder);
        try
        {
            using var client = await data.StartAsync();
            var kept = await client.UploadAsync("small.asc", MadeGrid.Ascii(1)).JsonAsync(HttpStatusCode.Created);
            var problem = await client.UploadAsync("large.asc", MadeGrid.Ascii(2, size: 800)).ProblemAsync(HttpStatusCode.InsufficientStorage);
            Assert.Contains("full", problem["detail"]!.GetValue<string>(), StringComparison.Ordinal);
            Assert.Empty(data.HalfFiles);

            HttpStatusCode last;
            var number = 0;
            do
            {
                var plan = new JsonObject { ["name"] = new string('x', 100), ["plan"] = MadeValley.Plan() };
                using var response = await client.SendJsonAsync(HttpMethod.Put, $"/api/plans/plan-{number++}", plan);
                last = response.StatusCode;
            }
            while (last == HttpStatusCode.Created);
            Assert.Equal(HttpStatusCode.InsufficientStorage, last);
            Assert.Equal(number - 1, (await client.SendJsonAsync(HttpMethod.Get, "/api/plans").JsonAsync()).AsArray().Count);
            await client.SendJsonAsync(HttpMethod.Get, $"/api/grids/{kept["id"]}").JsonAsync();

            // Not a byte is left, and yet room can be made.
            FillUp(Path.Combine(data.Folder, "others"));
            using (var deleted = await client.SendJsonAsync(HttpMethod.Delete, "/api/plans/plan-0")) Assert.Equal(HttpStatusCode.NoContent, deleted.StatusCode);
            using (var deleted = await client.SendJsonAsync(HttpMethod.Delete, $"/api/grids/{kept["id"]}")) Assert.Equal(HttpStatusCode.NoContent, deleted.StatusCode);
            Assert.Empty(data.GridFiles);
            await data.StopAsync();
        }
        finally
        {
            await data.StopAsync();
            Run("umount", data.Folder);
        }
    }

    [Fact(SkipUnless = nameof(CanMount), Skip = "a small disk can be mounted by root on Linux only")]
    public async Task From_a_disk_that_can_only_be_read_all_is_backed_up_and_saved()
    {
        // Would be understood otherwise in an address.
        const string name = "glowcast ü?#%41";
        await using var data = new DataOfATest();
        using (var client = await data.StartAsync()) await client.UploadAsync("small.asc", MadeGrid.Ascii(1)).JsonAsync(HttpStatusCode.Created);
        await data.StopAsync();
        var disk = Directory.CreateTempSubdirectory("glowcast-mount-").FullName;
        var (backup, saved) = (Path.Combine(Path.GetTempPath(), $"glowcast-{Guid.NewGuid():N}.zip"), Path.Combine(Path.GetTempPath(), $"glowcast-{Guid.NewGuid():N}"));
        Run("mount", "-t", "tmpfs", "tmpfs", disk);
        try
        {
            var folder = Path.Combine(disk, name);
            Run("cp", "-r", data.Folder, folder);
            Run("mount", "-o", "remount,ro", disk);
            var (written, found) = (Backup.Write(folder, backup), Salvage.Into(folder, saved));
            Assert.Equal((1, 0, 1, 0), (written.Grids, written.Damaged.Count, found.Grids, found.Damaged.Count));
            Assert.Contains("only be read", Assert.Throws<BadInputException>(() => DataFolder.Open(folder)).Message, StringComparison.Ordinal);
            Run("mount", "-o", "remount,rw", disk);
            await File.WriteAllTextAsync(Path.Combine(folder, "glowcast.db-wal"), "not closed", TestContext.Current.CancellationToken);
            Run("mount", "-o", "remount,ro", disk);
            Assert.Contains("copy the folder to another disk", Assert.Throws<BadInputException>(() => Backup.Write(folder, backup + "2")).Message, StringComparison.Ordinal);
        }
        finally
        {
            Run("umount", disk);
            Directory.Delete(disk);
            File.Delete(backup);
            if (Directory.Exists(saved)) Directory.Delete(saved, recursive: true);
        }
    }

    private static void FillUp(string path)
    {
        using var file = new FileStream(path, FileMode.Create, FileAccess.Write, FileShare.None, 0);
        try
        {
            for (var bytes = 1 << 16; ;) file.Write(new byte[bytes]);
        }
        catch (IOException)
        {
            // Full.
        }
    }

    private static bool TryMount()
    {
        var folder = Directory.CreateTempSubdirectory("glowcast-mount-").FullName;
        try
        {
            Run("mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", folder);
            Run("umount", folder);
            return true;
        }
        catch (Exception refused) when (refused is InvalidOperationException or System.ComponentModel.Win32Exception)
        {
            return false;
        }
        finally
        {
            Directory.Delete(folder);
        }
    }

    private static void Run(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true })!;
        process.WaitForExit();
        if (process.ExitCode != 0) throw new InvalidOperationException($"{program} {string.Join(' ', arguments)}: {process.StandardError.ReadToEnd()}");
    }
}
