using Glowcast.Server.Page;
using Microsoft.Extensions.FileProviders;

namespace Glowcast.Server.Tests.Page;

public class PageSizeTests
{
    private const long MostBytes = 150_000;
    private const long MostBytesOfTakes = 20_000;

    // Two pages: of the one for takes the other loads nothing.
    [Fact]
    public void The_pages_own_code_is_small()
    {
        var files = Lengths(new BareScripts(new ManifestEmbeddedFileProvider(typeof(ServerHost).Assembly, "wwwroot")), "/").ToLookup(file => file.Name.StartsWith("take", StringComparison.Ordinal), file => file.Length);
        Assert.InRange(files[false].Sum(), 1, MostBytes);
        Assert.InRange(files[true].Sum(), 1, MostBytesOfTakes);
    }

    [Fact]
    public void Scripts_are_sent_without_their_comments_and_with_all_else() => Assert.Equal(
        "import { a } from './a.js';\nconst half = (x) => x / 2; const address = 'http://127.0.0.1/';\nexport class B {}\n",
        BareScripts.WithoutComments(
            "// @ts-check\n/** What it is for,\n * at length. */\nimport { a } from './a.js';\n\n  // Why so.\nconst half = (/** @type {number} */ x) => x / 2; const address = 'http://127.0.0.1/';\nexport class B {}\n"));

    private static IEnumerable<(string Name, long Length)> Lengths(IFileProvider files, string folder) => files.GetDirectoryContents(folder).SelectMany(entry =>
    {
        var path = $"{folder}{entry.Name}";
        return entry.IsDirectory ? Lengths(files, $"{path}/") : [(entry.Name, files.GetFileInfo(path).Length)];
    });
}
