using Microsoft.Extensions.FileProviders;

namespace Glowcast.Server.Tests.Page;

public class ServiceWorkerTests
{
    private static readonly ManifestEmbeddedFileProvider Files = new ManifestEmbeddedFileProvider(typeof(ServerHost).Assembly, "wwwroot");

    [Fact]
    public void The_service_worker_keeps_every_file_of_the_page_but_itself()
    {
        var worker = new StreamReader(Files.GetFileInfo("sw.js").CreateReadStream()).ReadToEnd();
        Assert.All(Paths("").Where(path => path is not ("index.html" or "sw.js")), path =>
            Assert.Contains($"'{Path.GetFileNameWithoutExtension(path)}{(path.Contains('/', StringComparison.Ordinal) ? "" : Path.GetExtension(path))}'", worker, StringComparison.Ordinal));
    }

    private static IEnumerable<string> Paths(string folder) => Files.GetDirectoryContents(folder).SelectMany(entry =>
    {
        var path = folder.Length == 0 ? entry.Name : $"{folder}/{entry.Name}";
        return entry.IsDirectory ? Paths(path) : [path];
    });
}
