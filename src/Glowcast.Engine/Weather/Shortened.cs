namespace Glowcast.Engine.Weather;

/// <summary>Text of a report as it may be quoted in a message.</summary>
internal static class Shortened
{
    private const int Longest = 40;

    /// <summary>At most 40 characters, none of them a control character.</summary>
    public static string To40(string text)
    {
        var plain = string.Concat(text.Take(Longest).Select(letter => char.IsControl(letter) ? ' ' : letter));
        return text.Length > Longest ? $"{plain}…" : plain;
    }
}
