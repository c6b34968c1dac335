using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>One field of a file: what it is of, where its points are, and where its values lie. They are read when asked for.</summary>
public sealed class GribField
{
    internal GribField(GribSource file, int message, int submessage, GribProduct product, GribGrid grid, GribPacking packing) =>
        (File, Message, Submessage, Product, Grid, Packing) = (file, message, submessage, product, grid, packing);

    public GribSource File { get; }

    /// <summary>Counted from 1 among the messages of edition 2 of its file.</summary>
    public int Message { get; }

    /// <summary>Counted from 1 among the fields of its message.</summary>
    public int Submessage { get; }

    public GribProduct Product { get; }

    public GribGrid Grid { get; }

    /// <summary>Number of the data representation template: 3 for 5.3.</summary>
    public int PackingTemplate => Packing.Template;

    /// <summary>As users know it.</summary>
    public string PackingName => Packing.Name;

    internal GribPacking Packing { get; }

    /// <summary>Where the bitmap begins in the file; null where every point has a value.</summary>
    internal long? BitmapAt { get; init; }

    internal long DataAt { get; init; }

    internal int DataOctets { get; init; }

    /// <summary>How many values are missing, as far as the header tells; null where only the data do.</summary>
    public long? MissingByHeader => Packing.MarksMissing || Packing.Template == 4 ? null : Grid.Points - Packing.Count;

    /// <exception cref="BadInputException">Its data are damaged, or the file cannot be read any more.</exception>
    public GribValues Values() => File.Read(stream =>
    {
        try
        {
            return Values(stream);
        }
        catch (GribDamage damage)
        {
            throw new BadInputException(File.Name, $"Message {Message}{(Submessage > 1 ? $", field {Submessage}" : "")}: {damage.Message}");
        }
    });

    private GribValues Values(Stream stream)
    {
        GribUnpacking.MustBeSensible(Packing, Grid.Points, DataOctets);
        var points = (int)Grid.Points;
        var bitmap = BitmapAt is { } at ? Octets(stream, at, (points + 7) / 8) : [];
        return GribUnpacking.Unpack(Packing, points, bitmap, Octets(stream, DataAt, DataOctets));
    }

    private static byte[] Octets(Stream stream, long at, int count)
    {
        if (at + count > stream.Length) throw new GribDamage("The file has become shorter since its messages were found.");
        var octets = new byte[count];
        stream.Position = at;
        stream.ReadExactly(octets);
        return octets;
    }
}
