using System.Buffers.Binary;
using System.Globalization;
using System.Text;

namespace Glowcast.Engine.Tests.Terrain;

/// <summary>A DTED file made for a test, after MIL-PRF-89020B.</summary>
internal static class MadeDted
{
    public const int Rows = 31;
    public const int Columns = 21;

    /// <summary>Rows every 120″ from 46° N, columns every 180″ from 7° E.</summary>
    /// <param name="accuracy">Vertical, absolute and from post to post, four characters each.</param>
    public static byte[] Write(
        Func<int, int, ushort> rawFromSouthAndWest, string datum = "WGS84", string origin = "0070000E0460000N", string verticalDatum = "E96",
        (string Absolute, string Difference)? accuracy = null)
    {
        var header = new byte[3428];
        Array.Fill(header, (byte)' ');
        void Put(int at, string text) => Encoding.ASCII.GetBytes(text, header.AsSpan(at));
        Put(0, "UHL1" + origin + "18001200" + "0030");
        Put(47, Columns.ToString("0000", CultureInfo.InvariantCulture) + Rows.ToString("0000", CultureInfo.InvariantCulture) + "0");
        Put(80, "DSI");
        Put(221, verticalDatum + datum);
        Put(728, $"ACC0050{accuracy?.Absolute ?? "NA  "}NA  {accuracy?.Difference ?? "NA  "}");
        return [.. header, .. Enumerable.Range(0, Columns).SelectMany(column => Record(column, row => rawFromSouthAndWest(row, column)))];
    }

    public static ushort SignAndMagnitude(int height) => (ushort)(height < 0 ? 0x8000 | -height : height);

    public static ushort TwosComplement(int height) => unchecked((ushort)(short)height);

    private static byte[] Record(int column, Func<int, ushort> raw)
    {
        var record = new byte[8 + (2 * Rows) + 4];
        record[0] = 0xAA;
        record[3] = (byte)column;
        BinaryPrimitives.WriteUInt16BigEndian(record.AsSpan(4), (ushort)column);
        for (var row = 0; row < Rows; row++) BinaryPrimitives.WriteUInt16BigEndian(record.AsSpan(8 + (2 * row)), raw(row));
        BinaryPrimitives.WriteInt32BigEndian(record.AsSpan(record.Length - 4), record.Sum(part => part));
        return record;
    }
}
