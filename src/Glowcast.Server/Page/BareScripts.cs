using System.Collections.Concurrent;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.Extensions.FileProviders;
using Microsoft.Extensions.Primitives;

namespace Glowcast.Server.Page;

/// <summary>The page's files with scripts and style bared of comments, indents and line ends within a statement: those are for whoever reads the source, not for
/// a phone on a mountain.</summary>
/// <remarks>Knows no JavaScript beyond the page's own, in which no text holds the beginning of a comment or goes over more than one line, and comments stand on
/// lines of their own or between marks.</remarks>
internal sealed partial class BareScripts(IFileProvider files) : IFileProvider
{
    private readonly ConcurrentDictionary<string, IFileInfo> bare = new(StringComparer.Ordinal);

    public IFileInfo GetFileInfo(string subpath)
    {
        var file = files.GetFileInfo(subpath);
        return file.Exists && Path.GetExtension(subpath) is ".js" or ".css" ? bare.GetOrAdd(subpath, _ => new BareScript(file)) : file;
    }

    public IDirectoryContents GetDirectoryContents(string subpath) => files.GetDirectoryContents(subpath);

    public IChangeToken Watch(string filter) => files.Watch(filter);

    public static string Bared(string script) => InnerLineEnd().Replace(Indent().Replace(LineComment().Replace(BlockComment().Replace(script, ""), ""), ""), "");

    [GeneratedRegex(@"/\*.*?\*/ ?", RegexOptions.Singleline | RegexOptions.CultureInvariant)]
    private static partial Regex BlockComment();

    [GeneratedRegex(@"^[ \t]*//.*$", RegexOptions.Multiline | RegexOptions.CultureInvariant)]
    private static partial Regex LineComment();

    [GeneratedRegex(@"^\s+", RegexOptions.Multiline | RegexOptions.CultureInvariant)]
    private static partial Regex Indent();

    [GeneratedRegex(@"(?<=[;{,(\[])\n|\n(?=[}\])?:.&|])", RegexOptions.CultureInvariant)]
    private static partial Regex InnerLineEnd();

    private sealed class BareScript : IFileInfo
    {
        private readonly byte[] content;

        public BareScript(IFileInfo file)
        {
            (Name, LastModified) = (file.Name, file.LastModified);
            using var reader = new StreamReader(file.CreateReadStream(), Encoding.UTF8);
            content = Encoding.UTF8.GetBytes(Bared(reader.ReadToEnd()));
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
