using Glowcast.Server.Page;

namespace Glowcast.Server.Tests.Page;

public class PageSizeTests
{
    private const long MostBytes = 150_000;
    private const long MostBytesOfTakes = 20_000;

    // Two pages: of the one for takes the other loads nothing.
    [Fact]
    public void The_pages_own_code_is_small()
    {
        var lengths = PageSource.Paths.Where(path => !IsPicture(path)).ToLookup(
            path => Path.GetFileName(path).StartsWith("take", StringComparison.Ordinal), path => new BareFiles(PageSource.Files).GetFileInfo(path).Length);
        TestContext.Current.TestOutputHelper?.WriteLine($"forecasts {lengths[false].Sum()}, takes {lengths[true].Sum()} bytes");
        Assert.InRange(lengths[false].Sum(), 1, MostBytes);
        Assert.InRange(lengths[true].Sum(), 1, MostBytesOfTakes);
    }

    [Fact]
    public void Scripts_are_sent_without_what_only_readers_need_and_with_all_else() => Assert.Equal(
        "import { a } from './a.js';\nconst half = (x) => x / 2; const address = 'http://127.0.0.1/';\nexport class B {\nc = 1;\n}\nexport const d = a({\ne: half,\n});",
        BareFiles.Script(
            """
            // @ts-check
            /** What it is for,
             * at length. */
            import { a } from './a.js';

              // Why so.
            const half = (/** @type {number} */ x) => x / 2; const address = 'http://127.0.0.1/';
            export class B {
              c = 1;
            }
            export const d = a({
              e: half,
            });
            """));

    [Fact]
    public void A_style_is_sent_without_what_only_readers_need_and_with_all_else() => Assert.Equal(
        ":root {\n--paper: light-dark(#f6f1e5, #15181c);\n}\n.map svg:hover, input:focus-within { font: .8rem/1.45 \"DejaVu Sans Mono\", monospace; }",
        BareFiles.Style(
            """
            /* Paper and ink. */
            :root {
              --paper: light-dark(#f6f1e5, #15181c);
            }
            .map svg:hover, input:focus-within { font: .8rem/1.45 "DejaVu Sans Mono", monospace; }
            """));

    [Fact]
    public void No_text_of_a_script_goes_over_more_than_one_line_and_no_comment_stands_after_code() => Assert.All(
        PageSource.Paths.Where(path => path.EndsWith(".js", StringComparison.Ordinal)).SelectMany(path => PageSource.Text(path).Split('\n')),
        line => Assert.True(line.Count(letter => letter == '`') % 2 == 0 && (!line.Contains(" //", StringComparison.Ordinal) || line.TrimStart().StartsWith("//", StringComparison.Ordinal)), line));

    // A drawing written as text is code too.
    private static bool IsPicture(string path) => path.EndsWith(".png", StringComparison.Ordinal);
}
