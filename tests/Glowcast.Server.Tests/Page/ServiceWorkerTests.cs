namespace Glowcast.Server.Tests.Page;

public class ServiceWorkerTests
{
    [Fact]
    public void The_service_worker_keeps_every_file_of_the_page_but_itself()
    {
        var worker = PageSource.Text("/sw.js");
        var paths = PageSource.Paths.Where(path => path is not ("/index.html" or "/sw.js")).ToList();
        Assert.Contains("/think/scales.js", paths);
        // Modules of a folder stand in its list by their bare names.
        Assert.All(paths, path => Assert.Contains(
            path.LastIndexOf('/') == 0 ? $"'{path[1..]}'" : $"'{Path.GetFileNameWithoutExtension(path)}'", worker, StringComparison.Ordinal));
    }
}
