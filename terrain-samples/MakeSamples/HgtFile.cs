using System.Buffers.Binary;
using System.Security.Cryptography;

namespace MakeSamples;

/// <summary>The SRTM tile format: no header, signed 16-bit metres, big-endian, rows from north to south.</summary>
internal static class HgtFile
{
    /// <returns>The SHA-256 of the written bytes, in hexadecimal.</returns>
    public static string Write(string path, Ground ground)
    {
        var bytes = new byte[2 * ground.Lattice.Count];
        for (var i = 0; i < ground.Lattice.Count; i++)
            BinaryPrimitives.WriteInt16BigEndian(bytes.AsSpan(2 * i), (short)Math.Round(ground.HeightM[i]));
        File.WriteAllBytes(path, bytes);
        return Convert.ToHexStringLower(SHA256.HashData(bytes));
    }
}
