using Glowcast.Server.Page;
using Microsoft.Extensions.FileProviders;

namespace Glowcast.Server.Tests.Page;

public class PageSizeTests
{
    private const long MostBytes = 150_000;

    [Fact]
    public void The_page_s_own_code_is_small() => Assert.InRange(
        Lengths(new BareScripts(new ManifestEmbeddedFileProvider(typeof(ServerHost).Assembly, "wwwroot")), "/").Sum(), 1, MostBytes);

    [Fact]
    public void Scripts_are_sent_without_their_comments_and_with_all_else() => Assert.Equal(
        "import { a } from './a.js';\nconst half = (x) => x / 2; const address = 'http://127.0.0.1/';\nexport class B {}\n",
        BareScripts.WithoutComments(
            "// @ts-check\n/** What it is for,\n * at length. */\nimport { a } from './a.js';\n\n  // Why so.\nconst half = (/** @type {number} */ x) => x / 2; const address = 'http://127.0.0.1/';\nexport class B {}\n"));

    private static IEnumerable<long> Lengths(IFileProvider files, string folder) => files.GetDirectoryContents(folder).SelectMany(entry =>
    {
        var path = $"{folder}{entry.Name}";
        return entry.IsDirectory ? Lengths(files, $"{path}/") : [files.GetFileInfo(path).Length];
    });
}
