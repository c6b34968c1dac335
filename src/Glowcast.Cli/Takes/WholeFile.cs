namespace Glowcast.Cli.Takes;

/// <summary>Writes a file whole or not at all: under another name first, which becomes its own when it is done.</summary>
internal static class WholeFile
{
    private const string WhileWritten = ".part";

    /// <summary>In the place of what was there; its folder is made where it is missing.</summary>
    public static void Write(string path, Action<Stream> write)
    {
        var part = path + WhileWritten;
        if (Path.GetDirectoryName(Path.GetFullPath(path)) is { } folder) Directory.CreateDirectory(folder);
        try
        {
            using (var file = new FileStream(part, FileMode.Create, FileAccess.Write)) write(file);
            File.Move(part, path, overwrite: true);
        }
        catch
        {
            File.Delete(part);
            throw;
        }
    }

    /// <summary>A copy under its own name only when it is whole; never in the place of a file that is there.</summary>
    public static void Copy(string from, string to)
    {
        var part = to + WhileWritten;
        if (File.Exists(part)) throw new IOException($"{part} is there already");
        try
        {
            File.Copy(from, part, overwrite: false);
            File.Move(part, to, overwrite: false);
        }
        catch
        {
            File.Delete(part);
            throw;
        }
    }

    /// <summary>UTF-8 without a mark.</summary>
    public static void Write(string path, string text) => Write(path, file => file.Write(System.Text.Encoding.UTF8.GetBytes(text)));
}
