using System.Text;
using Glowcast.Engine.Take;
using Glowcast.Server.Answers;

namespace Glowcast.Cli.Takes;

/// <summary>Writes the files of each set as lists: one text file a set, one table of all, and the whole answer as JSON.</summary>
internal static class TakeLists
{
    public static void Write(string folder, SortedTake take, TakeAnswer answer, IReadOnlyDictionary<string, TakeFile> files)
    {
        foreach (var (index, set) in take.Sets.Index())
            WholeFile.Write(Path.Combine(folder, $"{SetName(index)}.txt"), string.Concat(set.Frames.SelectMany(frame => files[frame.Frame.Name].Files).Select(path => path + Environment.NewLine)));
        WholeFile.Write(Path.Combine(folder, "take.csv"), Table(take));
        WholeFile.Write(Path.Combine(folder, "take.json"), AnswerJson.Write(answer));
    }

    /// <summary>Of a set, for files and folders.</summary>
    /// <param name="index">From 0.</param>
    public static string SetName(int index) => $"set-{index + 1:00}";

    private static string Table(SortedTake take)
    {
        var table = new StringBuilder("file,set,row,column,shot,again,taken\r\n");
        foreach (var (index, set) in take.Sets.Index())
            foreach (var frame in set.Frames)
                table.Append(Line(frame.Frame, SetName(index), $"{frame.Row + 1},{frame.Column + 1},{frame.Shot + 1},{(frame.IsAgain ? "yes" : "no")}"));
        foreach (var loose in take.Loose) table.Append(Line(loose.Frame, loose.Kind == LooseKind.Marker ? "marker" : "loose", ",,,"));
        return table.ToString();
    }

    private static string Line(ShotFrame frame, string set, string place) =>
        $"{Quoted(frame.Name)},{set},{place},{frame.Taken:uuuu-MM-dd'T'HH:mm:ss.fff}\r\n";

    // RFC 4180.
    private static string Quoted(string text) => text.AsSpan().ContainsAny(",\"\r\n") ? $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : text;
}
