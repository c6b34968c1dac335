using System.Text;
using Spectre.Console;

namespace Glowcast.Cli.Showing;

/// <summary>An answer to be read: headings, paragraphs, lists of facts and tables that fit the terminal.</summary>
/// <remarks>What is written reaches the terminal as a whole, without blanks at the ends of lines.</remarks>
internal sealed class Page
{
    private readonly Terminal terminal;
    private readonly StringBuilder text = new();
    private readonly IAnsiConsole console;

    private Page(Terminal terminal)
    {
        this.terminal = terminal;
        console = AnsiConsole.Create(new AnsiConsoleSettings
        {
            Ansi = terminal.HasColour ? AnsiSupport.Yes : AnsiSupport.No,
            ColorSystem = terminal.HasColour ? ColorSystemSupport.Standard : ColorSystemSupport.NoColors,
            Interactive = InteractionSupport.No,
            Enrichment = new ProfileEnrichment { UseDefaultEnrichers = false },
            Out = new AnsiConsoleOutput(new StringWriter(text)),
        });
        console.Profile.Width = terminal.Width;
        console.Profile.Capabilities.Unicode = terminal.OutIsScreen;
    }

    public Terminal Terminal => terminal;

    /// <summary>Lets a page be written, then shows it.</summary>
    public static void Show(Terminal terminal, Action<Page> write)
    {
        var page = new Page(terminal);
        write(page);
        page.Finish();
    }

    public void Title(string title) => console.Write(new Text(title + Environment.NewLine, new Style(decoration: Decoration.Bold)));

    public void Heading(string heading)
    {
        // A table ends with an empty line of its own.
        if (!EndsWithEmptyLine()) console.WriteLine();
        Title(heading);
    }

    public void Paragraph(string paragraph, Tone tone = Tone.Plain) =>
        console.Write(new Text(paragraph + Environment.NewLine, StyleOf(tone)));

    /// <summary>A line that keeps its blanks, such as one of a picture.</summary>
    public void Line(string line) => console.WriteLine(line);

    /// <summary>A name and what there is to say of it, one below the other; facts without a text are left out.</summary>
    public void Facts(params IEnumerable<(string Name, string? Text)> facts)
    {
        var grid = new Grid();
        grid.AddColumn(new GridColumn { NoWrap = true, Padding = new Padding(2, 0, 2, 0) });
        grid.AddColumn(new GridColumn { Padding = new Padding(0, 0, 0, 0) });
        foreach (var (name, fact) in facts)
            if (fact is not null) grid.AddRow(new Text(name), new Text(fact));
        if (grid.Rows.Count > 0) console.Write(grid);
    }

    /// <summary>A list with a dash before each item.</summary>
    public void List(IEnumerable<string> items) => Facts(items.Select(item => ("-", (string?)item)));

    /// <param name="columns">Headings; one that begins with '&gt;' stands over numbers, at the right.</param>
    public void Table(IReadOnlyList<string> columns, IEnumerable<IReadOnlyList<string>> rows)
    {
        var table = new Table { Border = TableBorder.Simple, UseSafeBorder = true };
        foreach (var heading in columns)
        {
            var isRight = heading.StartsWith('>');
            table.AddColumn(new TableColumn(new Text(heading.TrimStart('>'), new Style(decoration: Decoration.Bold)))
            {
                Alignment = isRight ? Justify.Right : Justify.Left,
            });
        }
        foreach (var row in rows) table.AddRow(row.Select(cell => new Text(cell)));
        console.Write(table);
    }

    private bool EndsWithEmptyLine()
    {
        var lines = $"{text}".Split('\n');
        return lines.Length > 1 && string.IsNullOrWhiteSpace(lines[^2]) && lines[^1].Length == 0;
    }

    private void Finish()
    {
        using var lines = new StringReader(text.ToString());
        while (lines.ReadLine() is { } line) terminal.Out.WriteLine(line.TrimEnd());
    }

    private static Style StyleOf(Tone tone) => tone switch
    {
        Tone.Good => new Style(Color.Green, decoration: Decoration.Bold),
        Tone.Doubtful => new Style(Color.Yellow, decoration: Decoration.Bold),
        Tone.Bad => new Style(Color.Red, decoration: Decoration.Bold),
        _ => Style.Plain,
    };
}

/// <summary>How a sentence is coloured on a screen; the sentence itself says the same in words.</summary>
internal enum Tone
{
    Plain,
    Good,
    Doubtful,
    Bad,
}
