using Microsoft.Extensions.FileProviders;

namespace Glowcast.Server.Tests.Page;

public class ServiceWorkerTests
{
    private static readonly ManifestEmbeddedFileProvider Files = new ManifestEmbeddedFileProvider(typeof(ServerHost).Assembly, "wwwroot");

    [Fact]
    public void The_service_worker_keeps_every_file_of_the_page_but_itself()
    {
        var worker = new StreamReader(Files.GetFileInfo("sw.js").CreateReadStream()).ReadToEnd();
        var paths = Paths("/").Where(path => path is not ("/index.html" or "/sw.js")).ToList();
        Assert.Contains("/think/scales.js", paths);
        // Modules of a folder stand in its list by their bare names.
        Assert.All(paths, path => Assert.Contains(
            path.LastIndexOf('/') == 0 ? $"'{path[1..]}'" : $"'{Path.GetFileNameWithoutExtension(path)}'", worker, StringComparison.Ordinal));
    }

    private static IEnumerable<string> Paths(string folder) => Files.GetDirectoryContents(folder).SelectMany(entry =>
        entry.IsDirectory ? Paths($"{folder}{entry.Name}/") : [$"{folder}{entry.Name}"]);
}
