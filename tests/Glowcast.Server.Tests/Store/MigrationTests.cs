using Glowcast.Engine.Measures;
using Glowcast.Server.Store;
using Microsoft.Data.Sqlite;

namespace Glowcast.Server.Tests.Store;

public class MigrationTests
{
    public static TheoryData<int> EarlierVersions => [.. Enumerable.Range(0, Migrations.Scripts.Count)];

    [Theory]
    [MemberData(nameof(EarlierVersions))]
    public async Task A_database_of_every_earlier_version_is_brought_forward_with_what_it_holds(int version)
    {
        await using var data = new DataOfATest();
        using (var old = Connect(data.Folder))
        {
            Migrations.BringForward(old, version);
            if (version > 0) old.Execute("INSERT INTO document VALUES ('lookouts', 'saddle', 'Saddle', '{}', '2026-01-01T00:00:00Z')");
        }

        using var client = await data.StartAsync();

        Assert.Equal(version > 0 ? 1 : 0, (await client.SendJsonAsync(HttpMethod.Get, "/api/lookouts").JsonAsync()).AsArray().Count);
        await data.StopAsync();
        using var now = Connect(data.Folder);
        Assert.Equal(Schema(Newest()), Schema(now));
    }

    [Fact]
    public async Task A_database_of_a_later_version_is_left_alone()
    {
        await using var data = new DataOfATest();
        using (var later = Connect(data.Folder)) later.Execute("PRAGMA user_version = 999");
        var refusal = Assert.Throws<BadInputException>(() => ServerHost.Build(new ServerOptions { DataFolder = data.Folder }));
        Assert.Contains("later version", Assert.Single(refusal.Faults).Message, StringComparison.Ordinal);
    }

    private static SqliteConnection Newest()
    {
        var connection = new SqliteConnection("Data Source=:memory:");
        connection.Open();
        Migrations.BringForward(connection);
        return connection;
    }

    private static SqliteConnection Connect(string folder)
    {
        var connection = new SqliteConnection($"Data Source={Path.Combine(folder, "glowcast.db")};Pooling=False");
        connection.Open();
        return connection;
    }

    private static List<string> Schema(SqliteConnection connection) =>
        [.. connection.Query("SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY name", row => row.GetString(0)), $"{connection.Scalar<long>("PRAGMA user_version")}"];
}
