using Glowcast.Server.Store;
using NodaTime;

namespace Glowcast.Server.Tests.Store;

public class CacheTests
{
    [Fact]
    public async Task The_longest_unused_is_forgotten_first()
    {
        using var folder = DataFolder.Open(null);
        var clock = new SetClock();
        var cache = new SqliteCache(folder.Database, clock, mostBytes: 1000);
        foreach (var key in (string[])["a", "b", "c"]) await KeepAsync(key, 300);
        Assert.NotNull(await FindAsync("a"));
        await KeepAsync("d", 300);

        Assert.NotNull(await FindAsync("a"));
        Assert.Null(await FindAsync("b"));
        Assert.NotNull(await FindAsync("c"));
        Assert.NotNull(await FindAsync("d"));

        await KeepAsync("whole", 1000);
        Assert.Null(await FindAsync("a"));
        Assert.NotNull(await FindAsync("whole"));
        await KeepAsync("larger", 1001);
        Assert.NotNull(await FindAsync("whole"));
        Assert.Null(await FindAsync("larger"));

        Task KeepAsync(string key, int bytes) => At(() => cache.KeepAsync(new Dictionary<string, byte[]> { [key] = new byte[bytes] }, TestContext.Current.CancellationToken));
        Task<byte[]?> FindAsync(string key) => At(() => cache.FindAsync(key, TestContext.Current.CancellationToken));

        T At<T>(Func<T> use)
        {
            clock.Now += Duration.FromHours(2);
            return use();
        }
    }

    private sealed class SetClock : IClock
    {
        public Instant Now { get; set; } = Instant.FromUtc(2026, 1, 1, 0, 0);

        public Instant GetCurrentInstant() => Now;
    }
}
