using System.Globalization;

namespace Glowcast.Server.Answers;

/// <summary>The light chart as bytes, for clients that count them; docs/api.md has the layout. All numbers are little-endian.</summary>
public static class ChartBytes
{
    public const string MediaType = "application/vnd.glowcast.chart";

    private const ushort Version = 1;

    public static byte[] Write(ChartAnswer chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        using var bytes = new MemoryStream();
        using var writer = new BinaryWriter(bytes);
        writer.Write("GLOW"u8);
        writer.Write(Version);
        writer.Write((ushort)chart.Columns);
        writer.Write(chart.Minutes);
        writer.Write(DateTimeOffset.Parse(chart.Start, CultureInfo.InvariantCulture).ToUnixTimeMilliseconds());
        writer.Write(chart.LengthS);
        writer.Write(chart.FromDeg);
        writer.Write(chart.ColumnDeg);
        foreach (var hasRidge in chart.HasRidge) writer.Write(hasRidge);
        writer.Write(chart.Crest);
        writer.Write(chart.Ridge);
        writer.Write(chart.Valley);
        foreach (var lit in chart.ColumnLitS) WriteList(writer, lit);
        WriteList(writer, chart.ValleyShare ?? []);
        WriteList(writer, chart.ValleyShadedS);
        WriteList(writer, chart.SunAzimuthDeg);
        WriteList(writer, chart.SunAltitudeDeg);
        writer.Flush();
        return bytes.ToArray();
    }

    private static void WriteList(BinaryWriter writer, IReadOnlyList<double> values)
    {
        writer.Write(values.Count);
        foreach (var value in values) writer.Write((float)value);
    }
}
