namespace Glowcast.Engine.Weather;

/// <summary>What is said of a report, kept short however long the report is.</summary>
internal static class Shortened
{
    private const int Longest = 40;
    private const int MostRemarks = 20;

    /// <summary>At most 40 characters, none of them a control character.</summary>
    public static string To40(string text)
    {
        var plain = string.Concat(text.Take(Longest).Select(letter => char.IsControl(letter) ? ' ' : letter));
        return text.Length > Longest ? $"{plain}…" : plain;
    }

    /// <summary>The first remarks, and how many more there were.</summary>
    public static IReadOnlyList<string> To20(List<string> remarks) => remarks.Count <= MostRemarks
        ? remarks
        : [.. remarks.Take(MostRemarks), $"There were {remarks.Count - MostRemarks} more such remarks."];
}
