using System.Text;
using System.Text.Json;
using Glowcast.Engine.Measures;
using Glowcast.Engine.Take;

namespace Glowcast.Cli.Takes;

/// <summary>Writes the contact sheet: one page that works by itself, on which the borders of sets can be moved and saved.</summary>
internal static class TakeSheet
{
    private const string Place = "{{take}}";
    private const long MostPictureBytes = 60_000_000;
    private const int MostThumbnailBytes = 48_000;
    private const int LeastThumbnailBytes = 6_000;

    /// <summary>The file beside a sheet in which the borders that were moved on it are looked for.</summary>
    public static string BordersOf(string sheet) => Path.ChangeExtension(sheet, ".borders.json");

    public static void Write(string path, SortedTake take, IReadOnlyDictionary<string, TakeFile> files, IProgress<double> progress, CancellationToken cancel)
    {
        using var template = new StreamReader(typeof(TakeSheet).Assembly.GetManifestResourceStream("sheet.html")!);
        var halves = template.ReadToEnd().Split(Place);
        WholeFile.Write(path, file =>
        {
            file.Write(Encoding.UTF8.GetBytes(halves[0]));
            // The writer escapes what could end the script it stands in.
            using (var json = new Utf8JsonWriter(file)) WriteTake(json, take, files, Path.GetFileName(BordersOf(path)), progress, cancel);
            file.Write(Encoding.UTF8.GetBytes(halves[1]));
        });
    }

    private static void WriteTake(
        Utf8JsonWriter json, SortedTake take, IReadOnlyDictionary<string, TakeFile> files, string saveAs, IProgress<double> progress, CancellationToken cancel)
    {
        var places = take.Sets.Index().SelectMany(set => set.Item.Frames.Select(frame => (set.Index, Frame: frame))).ToDictionary(place => place.Frame.Frame.Name);
        var loose = take.Loose.ToDictionary(frame => frame.Frame.Name);
        var mostBytes = (int)Math.Clamp(MostPictureBytes / Math.Max(1, take.InOrder.Count), LeastThumbnailBytes, MostThumbnailBytes);
        json.WriteStartObject();
        json.WriteString("saveAs", saveAs);
        json.WriteStartArray("sets");
        foreach (var set in take.Sets) WriteSet(json, set);
        json.WriteEndArray();
        json.WriteStartArray("frames");
        foreach (var (done, frame) in take.InOrder.Index())
        {
            cancel.ThrowIfCancellationRequested();
            json.WriteStartObject();
            json.WriteString("name", frame.Name);
            json.WriteString("taken", $"{frame.Taken:HH:mm:ss.f}");
            json.WriteNumber("lie", frame.Settings.Lie ?? 1);
            if (Picture(files[frame.Name], mostBytes) is { } picture) json.WriteBase64String("picture", picture);
            if (places.TryGetValue(frame.Name, out var place)) WritePlace(json, place.Index, place.Frame);
            else if (loose.TryGetValue(frame.Name, out var alone)) json.WriteString("note", alone.Kind == LooseKind.Marker ? "marker" : "by itself");
            json.WriteEndObject();
            progress.Report((done + 1.0) / take.InOrder.Count);
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteSet(Utf8JsonWriter json, FoundSet set)
    {
        json.WriteStartObject();
        json.WriteString("wholeness", set.Wholeness switch { Wholeness.Whole => "whole", Wholeness.NotWhole => "not whole", _ => "uncertain" });
        json.WriteBoolean("isCompleteByCount", set.IsCompleteByCount);
        json.WriteNumber("confidence", Math.Round(set.Confidence, 2));
        json.WriteStartArray("reasons");
        foreach (var reason in set.Reasons) json.WriteStringValue(reason);
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WritePlace(Utf8JsonWriter json, int set, SetFrame frame)
    {
        json.WriteNumber("set", set);
        json.WriteString("note", $"row {frame.Row + 1}, frame {frame.Column + 1}{(frame.IsAgain ? ", again" : "")}");
    }

    // What cannot be read any more is shown without its picture.
    private static byte[]? Picture(TakeFile file, int mostBytes)
    {
        try
        {
            using var stream = new FileStream(file.Files[0], FileMode.Open, FileAccess.Read, FileShare.Read);
            return FrameReader.Thumbnail(stream, file.Name, mostBytes);
        }
        catch (Exception gone) when (gone is IOException or UnauthorizedAccessException or BadInputException)
        {
            return null;
        }
    }
}
