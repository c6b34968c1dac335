using NodaTime;

namespace Glowcast.Engine.Weather;

/// <summary>Walks through the sections of one message and finds its fields, without reading their data.</summary>
/// <param name="number">Of the message in its file, from 1.</param>
/// <param name="grids">Of the whole set: fields of one grid share it.</param>
internal sealed class GribMessage(GribSource file, Stream stream, int number, GribGridShelf grids)
{
    private const int HeadOctets = 16;
    private const int LongestHeader = 1 << 20;
    private const byte NoBitmap = 255;
    private const byte SameBitmap = 254;
    private const byte GivenBitmap = 0;

    private readonly List<GribField> fields = [];
    private readonly List<string> refused = [];
    private int submessages;
    private int centre;
    private Instant? reference;
    private Part<GribGrid>? grid;
    private byte[]? product;
    private byte[]? packing;
    private long? bitmapAt;
    private bool hasBitmapSection;
    private (long At, int Points)? lastBitmap;

    /// <summary>Those that can be read.</summary>
    public IReadOnlyList<GribField> Fields => fields;

    /// <summary>Why others cannot, in sentences.</summary>
    public IReadOnlyList<string> Refused => refused;

    /// <summary>A thing that was read, or why it could not be.</summary>
    private sealed record Part<T>(T? Value, string? Refusal) where T : class;

    /// <param name="discipline">Of the fields, from section 0.</param>
    /// <param name="begin">Where the message begins.</param>
    /// <param name="end">Where it ends, behind its end mark.</param>
    /// <exception cref="GribDamage">Its sections do not hang together.</exception>
    public void Read(int discipline, long begin, long end)
    {
        var (at, before) = (begin + HeadOctets, 0);
        while (at < end - 4)
        {
            var head = Octets(at, 5, end);
            var (length, section) = (new Octets(head).U32(1), head[4]);
            if (length < 5 || at + length > end - 4) throw new GribDamage($"Its section {section} claims {length} octets, where {end - 4 - at} are left.");
            if (!MayFollow(before, section)) throw new GribDamage($"Its section {before} is followed by section {section}.");
            Section(section, at, (int)Math.Min(length, int.MaxValue), discipline, end);
            (before, at) = (section, at + length);
        }
        if (before != 7) throw new GribDamage("It ends without data.");
    }

    private static bool MayFollow(int before, int section) => before switch
    {
        0 => section == 1,
        1 => section is 2 or 3,
        7 => section is 2 or 3 or 4,
        _ => section == before + 1,
    };

    private void Section(int section, long at, int length, int discipline, long end)
    {
        switch (section)
        {
            case 1:
                var identification = Header(at, length, end);
                (centre, reference) = (new Octets(identification).U16(6), GribProducts.ReferenceTime(new Octets(identification)));
                break;
            case 3:
                var bytes = Header(at, length, end);
                grid = Tried(() => grids.Of(bytes));
                break;
            case 4:
                product = Header(at, length, end);
                break;
            case 5:
                packing = Header(at, length, end);
                break;
            case 6:
                Bitmap(Octets(at, 6, end)[5], at + 6, length - 6);
                break;
            case 7:
                Field(discipline, at + 5, length - 5);
                break;
        }
    }

    private void Bitmap(byte indicator, long at, int octets)
    {
        hasBitmapSection = true;
        bitmapAt = indicator switch
        {
            NoBitmap => null,
            GivenBitmap => at,
            SameBitmap when lastBitmap is { } last => last.At,
            SameBitmap => throw new GribDamage("It refers to an earlier bitmap, and there is none before it."),
            _ => throw new GribDamage($"Its bitmap is number {indicator} of a catalogue of the service, which is not in the file."),
        };
        if (indicator != GivenBitmap || grid?.Value is not { } known) return;
        if (octets < (known.Points + 7) / 8) throw new GribDamage($"Its bitmap has {octets} octets for {known.Points} points.");
        lastBitmap = (at, (int)known.Points);
    }

    private void Field(int discipline, long at, int octets)
    {
        submessages++;
        if (grid is null || product is null || packing is null || reference is not { } run || !hasBitmapSection) throw new GribDamage("Its data come before all that describes them.");
        var field = Tried(() => FieldOf(discipline, run, at, octets));
        if (field.Value is { } read) fields.Add(read);
        else refused.Add(submessages > 1 ? $"field {submessages}: {field.Refusal}" : field.Refusal!);
    }

    private GribField FieldOf(int discipline, Instant run, long at, int octets)
    {
        if (grid!.Refusal is { } refusal) throw new GribDamage(refusal);
        var packed = GribPacking.Read(packing!);
        if (bitmapAt is not null && lastBitmap is { } last && last.Points != grid.Value!.Points) throw new GribDamage("Its bitmap belongs to another grid.");
        if (bitmapAt is null && packed.Count != grid.Value!.Points) throw new GribDamage($"It packs {packed.Count} values for {grid.Value.Points} points, and has no bitmap.");
        if (packed.Count > grid.Value!.Points) throw new GribDamage($"It packs {packed.Count} values for {grid.Value.Points} points.");
        packed.MustFit(octets);
        return new GribField(file, number, submessages, GribProducts.Read(new Octets(product), centre, discipline, run), grid.Value, packed)
        {
            BitmapAt = bitmapAt,
            DataAt = at,
            DataOctets = octets,
        };
    }

    private static Part<T> Tried<T>(Func<T> read) where T : class
    {
        try
        {
            return new Part<T>(read(), null);
        }
        catch (GribDamage damage)
        {
            return new Part<T>(null, damage.Message);
        }
    }

    private byte[] Header(long at, int length, long end) =>
        length <= LongestHeader ? Octets(at, length, end) : throw new GribDamage($"A header of it has {length} octets; those in use have some hundreds.");

    private byte[] Octets(long at, int count, long end)
    {
        if (at + count > end) throw new GribDamage("It ends within a section.");
        var octets = new byte[count];
        stream.Position = at;
        stream.ReadExactly(octets);
        return octets;
    }
}

/// <summary>Grids that were read, so that fields of one grid share it.</summary>
internal sealed class GribGridShelf
{
    private readonly Dictionary<string, GribGrid> known = [];

    public GribGrid Of(byte[] section)
    {
        var key = Convert.ToBase64String(section);
        return known.TryGetValue(key, out var grid) ? grid : known[key] = GribGrids.Read(section);
    }
}
