using Glowcast.Server.Page;

namespace Glowcast.Server.Tests.Page;

public class PageSizeTests
{
    private const long MostBytes = 150_000;

    [Fact]
    public void The_page_s_own_code_is_small() => Assert.InRange(
        PageSource.Paths.Where(path => !IsPicture(path)).Sum(path => new BareScripts(PageSource.Files).GetFileInfo(path).Length), 1, MostBytes);

    [Fact]
    public void Scripts_are_sent_without_comments_and_indents_and_with_all_else() => Assert.Equal(
        "import { a } from './a.js';\nconst half = (x) => x / 2; const address = 'http://127.0.0.1/';\nexport class B {\nc = 1;\n}\n",
        BareScripts.Bared(
            "// @ts-check\n/** What it is for,\n * at length. */\nimport { a } from './a.js';\n\n  // Why so.\nconst half = (/** @type {number} */ x) => x / 2; const address = 'http://127.0.0.1/';\nexport class B {\n  c = 1;\n}\n"));

    [Fact]
    public void No_text_of_a_script_goes_over_more_than_one_line_so_that_indents_are_no_part_of_any() => Assert.All(
        PageSource.Paths.Where(path => path.EndsWith(".js", StringComparison.Ordinal)).SelectMany(path => PageSource.Text(path).Split('\n')),
        line => Assert.True(line.Count(letter => letter == '`') % 2 == 0, line));

    // A drawing written as text is code too.
    private static bool IsPicture(string path) => path.EndsWith(".png", StringComparison.Ordinal);
}
