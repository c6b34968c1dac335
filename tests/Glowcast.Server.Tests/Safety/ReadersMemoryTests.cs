using System.Net;
using System.Text;

namespace Glowcast.Server.Tests.Safety;

public class ReadersMemoryTests
{
    private static readonly byte[] Slope = MadeGrid.Ascii(5);

    [Fact]
    public async Task A_grid_with_more_posts_than_the_service_bears_is_refused_before_it_is_read()
    {
        await using var data = new DataOfATest();
        using var client = await data.StartAsync(options => options with { MostPosts = 399 });
        await RefusedAsync(client, "at most 399 posts");
        Assert.Empty(data.GridFiles);
        Assert.Empty(data.HalfFiles);
    }

    [Fact]
    public async Task A_grid_that_would_take_more_memory_than_all_readers_have_is_refused()
    {
        await using var data = new DataOfATest();
        using var client = await data.StartAsync(options => options with { MostReadingBytes = 1 << 20 });
        await RefusedAsync(client, "1 MiB");
        using var roomier = await data.StartAsync(options => options with { MostReadingBytes = 2 << 20 });
        await roomier.UploadAsync("slope.asc", Slope).JsonAsync(HttpStatusCode.Created);
    }

    [Fact]
    public async Task Readers_take_turns_where_there_is_memory_for_one()
    {
        await using var data = new DataOfATest();
        using var client = await data.StartAsync(options => options with { MostReadingBytes = 2 << 20 });
        var grids = Enumerable.Range(0, 6).Select(i => client.UploadAsync($"slope{i}.asc", Slope).JsonAsync(HttpStatusCode.Created));
        var frames = Enumerable.Range(0, 6).Select(_ => FramesAsync(client).JsonAsync());
        Assert.All(await Task.WhenAll([.. grids, .. frames]), Assert.NotNull);
    }

    private static async Task RefusedAsync(HttpClient client, string says)
    {
        var problem = await client.UploadAsync("slope.asc", Slope).ProblemAsync(HttpStatusCode.UnprocessableEntity);
        Assert.Contains(says, problem["errors"]!["file"]![0]!.GetValue<string>(), StringComparison.Ordinal);
    }

    private static async Task<HttpResponseMessage> FramesAsync(HttpClient client)
    {
        using var form = new MultipartFormDataContent();
        form.Add(new ByteArrayContent(Encoding.ASCII.GetBytes("no picture")), "files", "notes.txt");
        return await client.PostAsync(new Uri("/api/takes/frames", UriKind.Relative), form, TestContext.Current.CancellationToken);
    }
}
