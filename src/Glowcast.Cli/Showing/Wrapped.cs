using System.Text;

namespace Glowcast.Cli.Showing;

/// <summary>Text for a screen of some width.</summary>
internal static class Wrapped
{
    private const string Indent = "  ";

    /// <summary>Breaks each line between words, and sets in what goes on; a word that is wider than the screen stands alone.</summary>
    public static string To(string text, int width) => string.Join(Environment.NewLine, text.Split('\n').Select(line => Line(line.TrimEnd('\r'), width)));

    private static string Line(string line, int width)
    {
        var wrapped = new StringBuilder();
        var column = 0;
        foreach (var word in line.Split(' '))
        {
            if (column > 0 && column + 1 + word.Length > width)
            {
                wrapped.AppendLine().Append(Indent).Append(word);
                column = Indent.Length + word.Length;
            }
            else
            {
                if (wrapped.Length > 0) wrapped.Append(' ');
                wrapped.Append(word);
                column += word.Length + (column > 0 ? 1 : 0);
            }
        }
        return wrapped.ToString();
    }
}
