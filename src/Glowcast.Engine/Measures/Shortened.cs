namespace Glowcast.Engine.Measures;

/// <summary>What is said of somebody's text, kept short however long the text is.</summary>
public static class Shortened
{
    private const int Longest = 80;
    private const int MostRemarks = 20;

    /// <summary>At most 80 characters and an ellipsis for the rest, none of them a control character.</summary>
    public static string To80(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        // Half of a surrogate pair is no text.
        var length = text.Length <= Longest ? text.Length : char.IsHighSurrogate(text[Longest - 1]) ? Longest - 1 : Longest;
        var plain = string.Concat(text.Take(length).Select(letter => char.IsControl(letter) ? ' ' : letter));
        return length < text.Length ? $"{plain}…" : plain;
    }

    /// <summary>The first remarks, and how many more there were.</summary>
    public static IReadOnlyList<string> To20(IReadOnlyList<string> remarks)
    {
        ArgumentNullException.ThrowIfNull(remarks);
        return remarks.Count <= MostRemarks ? remarks : [.. remarks.Take(MostRemarks), $"There were {remarks.Count - MostRemarks} more such remarks."];
    }
}
