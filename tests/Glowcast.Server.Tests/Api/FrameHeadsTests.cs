using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;

namespace Glowcast.Server.Tests.Api;

public class FrameHeadsTests(Service service, MadeFrames made) : IClassFixture<MadeFrames>
{
    [FactNeeds<MadeFrames>]
    public async Task The_beginnings_of_files_say_what_cameras_wrote()
    {
        var answer = await PostAsync(("IMG_0005.jpg", File.ReadAllBytes(made.Frame(5))), ("notes.txt", Encoding.UTF8.GetBytes("no picture"))).JsonAsync();
        var frame = Assert.Single(answer["frames"]!.AsArray())!;
        Assert.Equal("IMG_0005.jpg", frame["name"]!.GetValue<string>());
        Assert.Equal("2026-02-14T06:45:14.560", frame["taken"]!.GetValue<string>());
        Assert.Equal(0.02, frame["exposureS"]!.GetValue<double>(), 1e-9);
        Assert.Equal(16 * 12, frame["glance"]!.AsArray().Count);
        Assert.Equal("notes.txt", Assert.Single(answer["skipped"]!.AsArray())!["file"]!.GetValue<string>());
    }

    [FactNeeds<MadeFrames>]
    public async Task A_take_goes_from_files_to_sets()
    {
        var frames = new JsonArray();
        foreach (var batch in made.Files.Chunk(12))
        {
            var answer = await PostAsync([.. batch.Select(path => (Path.GetFileName(path), File.ReadAllBytes(path)))]).JsonAsync();
            foreach (var frame in answer["frames"]!.AsArray()) frames.Add(frame!.DeepClone());
        }
        var sorted = await service.Client.SendJsonAsync(HttpMethod.Post, "/api/takes", new JsonObject { ["frames"] = frames }).JsonAsync();
        Assert.Equal([9, 9], sorted["sets"]!.AsArray().Select(set => set!["frames"]!.GetValue<int>()));
        Assert.Equal(20, sorted["inOrder"]!.AsArray().Count);
    }

    [Fact]
    public async Task Too_many_files_too_long_ones_and_none_are_refused()
    {
        Assert.Equal(["files"], (await PostAsync([.. Enumerable.Range(0, 65).Select(i => ($"{i}.jpg", Array.Empty<byte>()))]).FaultsAsync()).Keys);
        await PostAsync(("long.jpg", new byte[(512 << 10) + 1])).ProblemAsync(HttpStatusCode.RequestEntityTooLarge);
        Assert.Equal(["files"], (await PostAsync((new string('a', 501), [])).FaultsAsync()).Keys);
    }

    [Theory]
    [InlineData("application/json", "{}", HttpStatusCode.UnsupportedMediaType)]
    [InlineData("multipart/form-data", "", HttpStatusCode.BadRequest)]
    [InlineData("multipart/form-data; boundary=a", "--b\r\n", HttpStatusCode.BadRequest)]
    [InlineData("multipart/form-data; boundary=a", "--a--\r\n", HttpStatusCode.BadRequest)]
    [InlineData("multipart/form-data; boundary=a", "--a\r\nContent-Disposition: form-data; name=f; filename=a.jpg\r\n\r\nbroken off", HttpStatusCode.BadRequest)]
    [InlineData("multipart/form-data; boundary=a", "--a\r\nContent-Disposition: form-data; name=f\r\n\r\nx\r\n--a--\r\n", HttpStatusCode.BadRequest)]
    public async Task What_is_no_form_of_files_is_refused(string type, string body, HttpStatusCode status)
    {
        using var content = new ByteArrayContent(Encoding.UTF8.GetBytes(body));
        content.Headers.ContentType = MediaTypeHeaderValue.Parse(type);
        using var response = await service.Client.PostAsync(new Uri("/api/takes/frames", UriKind.Relative), content, TestContext.Current.CancellationToken);
        Assert.Equal(status, response.StatusCode);
    }

    private async Task<HttpResponseMessage> PostAsync(params (string Name, byte[] Head)[] files)
    {
        using var form = new MultipartFormDataContent();
        foreach (var (name, head) in files) form.Add(new ByteArrayContent(head), "files", name);
        return await service.Client.PostAsync(new Uri("/api/takes/frames", UriKind.Relative), form, TestContext.Current.CancellationToken);
    }
}
