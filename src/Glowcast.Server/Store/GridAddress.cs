using System.Security.Cryptography;
using System.Text;

namespace Glowcast.Server.Store;

/// <summary>The address of a grid file: the first half of the SHA-256 of its name, a zero byte and its bytes, in hexadecimal digits.</summary>
internal sealed class GridAddress : IDisposable
{
    private const int Length = 32;

    private readonly IncrementalHash hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);

    /// <param name="fileName">As the client called it: some formats are placed by it, so it is part of what the file says.</param>
    public GridAddress(string fileName) => hash.AppendData(Encoding.UTF8.GetBytes(fileName + '\0'));

    public static string Of(string fileName, string path)
    {
        using var file = File.OpenRead(path);
        return Of(fileName, file);
    }

    /// <param name="file">Read to its end, and set back to its beginning.</param>
    public static string Of(string fileName, Stream file)
    {
        using var address = new GridAddress(fileName);
        var part = new byte[1 << 17];
        int read;
        while ((read = file.Read(part)) > 0) address.Append(part.AsSpan(0, read));
        file.Position = 0;
        return address.ToString();
    }

    public void Append(ReadOnlySpan<byte> bytes) => hash.AppendData(bytes);

    public override string ToString() => Convert.ToHexStringLower(hash.GetCurrentHash())[..Length];

    public void Dispose() => hash.Dispose();
}
