using System.CommandLine;
using System.Text;
using Glowcast.Engine.Measures;

namespace Glowcast.Cli.Asking;

/// <summary>A file that an answer is written to.</summary>
internal sealed class OutputFile
{
    private readonly string path;
    private readonly string field;

    private OutputFile(string path, string field) => (this.path, this.field) = (path, field);

    /// <summary>Looks, before any work is done, whether the file can be made; null where none is asked for.</summary>
    /// <param name="endings">That its name may have, such as ".svg"; any when left out.</param>
    public static OutputFile? Of(Question asked, Option<string[]> option, params ReadOnlySpan<string> endings)
    {
        if (asked.Text(option) is not { } path) return null;
        var isKnown = endings.Length == 0;
        foreach (var ending in endings) isKnown |= path.EndsWith(ending, StringComparison.OrdinalIgnoreCase);
        if (!isKnown) asked.Faults.Add(option.Name, $"Must end in {string.Join(" or ", endings.ToArray())}; got '{path}'.");
        else if (Directory.Exists(path)) asked.Faults.Add(option.Name, $"Is a folder; name a file in it. Got '{path}'.");
        else if (Path.GetDirectoryName(Path.GetFullPath(path)) is { } folder && !Directory.Exists(folder)) asked.Faults.Add(option.Name, $"Lies in a folder that does not exist: {folder}. Make it, or name another.");
        return new OutputFile(path, option.Name);
    }

    /// <summary>UTF-8 without a mark, in the place of what was there.</summary>
    /// <exception cref="BadInputException">It cannot be written.</exception>
    public void Write(Action<TextWriter> write) => Save(() =>
    {
        using var writer = new StreamWriter(path, false, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false));
        write(writer);
    });

    /// <summary>In the place of what was there.</summary>
    /// <exception cref="BadInputException">It cannot be written.</exception>
    public void Write(byte[] bytes) => Save(() => File.WriteAllBytes(path, bytes));

    private void Save(Action write)
    {
        try
        {
            write();
        }
        catch (Exception refused) when (refused is IOException or UnauthorizedAccessException or NotSupportedException)
        {
            throw new BadInputException(field, $"Cannot be written: {FileRefusal.Because(refused)}; name another file.");
        }
    }
}
