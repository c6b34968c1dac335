using Microsoft.Extensions.FileProviders;

namespace Glowcast.Server.Tests.Page;

/// <summary>The page's files as they lie in the assembly.</summary>
internal static class PageSource
{
    public static IFileProvider Files { get; } = new ManifestEmbeddedFileProvider(typeof(ServerHost).Assembly, "wwwroot");

    /// <summary>Every file, such as /think/scales.js.</summary>
    public static IEnumerable<string> Paths { get; } = [.. Under("/")];

    public static string Text(string path) => new StreamReader(Files.GetFileInfo(path).CreateReadStream()).ReadToEnd();

    public static byte[] Bytes(string path)
    {
        using var copy = new MemoryStream();
        using var file = Files.GetFileInfo(path).CreateReadStream();
        file.CopyTo(copy);
        return copy.ToArray();
    }

    private static IEnumerable<string> Under(string folder) => Files.GetDirectoryContents(folder).SelectMany(entry =>
        entry.IsDirectory ? Under($"{folder}{entry.Name}/") : [$"{folder}{entry.Name}"]);
}
