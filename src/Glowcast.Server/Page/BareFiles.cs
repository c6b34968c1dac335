using System.Collections.Concurrent;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.Extensions.FileProviders;
using Microsoft.Extensions.Primitives;

namespace Glowcast.Server.Page;

/// <summary>The page's files bared of what is for whoever reads the source, not for a phone on a mountain: comments and indents.</summary>
/// <remarks>Knows no JavaScript beyond the page's own, in which no text holds the beginning of a comment or goes over more than one line, and
/// comments stand on lines of their own or between marks.</remarks>
internal sealed partial class BareFiles(IFileProvider files) : IFileProvider
{
    private readonly ConcurrentDictionary<string, IFileInfo> bare = new(StringComparer.Ordinal);

    public IFileInfo GetFileInfo(string subpath)
    {
        var file = files.GetFileInfo(subpath);
        return file.Exists && Path.GetExtension(subpath) is ".js" or ".css" or ".html" ? bare.GetOrAdd(subpath, _ => new BareFile(file)) : file;
    }

    public IDirectoryContents GetDirectoryContents(string subpath) => files.GetDirectoryContents(subpath);

    public IChangeToken Watch(string filter) => files.Watch(filter);

    public static string Script(string text) => Indent().Replace(LineComment().Replace(BlockComment().Replace(text, ""), ""), "");

    public static string Style(string text) => Indent().Replace(BlockComment().Replace(text, ""), "");

    public static string Markup(string text) => Indent().Replace(text, "");

    [GeneratedRegex(@"/\*.*?\*/ ?", RegexOptions.Singleline | RegexOptions.CultureInvariant)]
    private static partial Regex BlockComment();

    [GeneratedRegex(@"^[ \t]*//.*$", RegexOptions.Multiline | RegexOptions.CultureInvariant)]
    private static partial Regex LineComment();

    [GeneratedRegex(@"^\s+", RegexOptions.Multiline | RegexOptions.CultureInvariant)]
    private static partial Regex Indent();

    private sealed class BareFile : IFileInfo
    {
        private readonly byte[] content;

        public BareFile(IFileInfo file)
        {
            (Name, LastModified) = (file.Name, file.LastModified);
            using var reader = new StreamReader(file.CreateReadStream(), Encoding.UTF8);
            var text = reader.ReadToEnd();
            content = Encoding.UTF8.GetBytes(Path.GetExtension(file.Name) switch { ".js" => Script(text), ".css" => Style(text), _ => Markup(text) });
        }

        public bool Exists => true;

        public bool IsDirectory => false;

        public DateTimeOffset LastModified { get; }

        public long Length => content.Length;

        public string Name { get; }

        public string? PhysicalPath => null;

        public Stream CreateReadStream() => new MemoryStream(content, writable: false);
    }
}
