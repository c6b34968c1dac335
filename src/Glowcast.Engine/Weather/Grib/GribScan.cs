using System.Buffers.Binary;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>Goes through a file from message to message. Headings of bulletins, padding and messages of edition 1 between them are passed over.</summary>
internal sealed class GribScan(GribSource file, Stream stream, GribGridShelf grids, Action<long> passed, CancellationToken cancel)
{
    private const int HeadOctets = 16;
    private const int MostRemarks = 20;
    private const int FirstLook = 256;
    private const string Right = "Give files of GRIB edition 2, as weather services offer them.";

    private readonly byte[] window = new byte[1 << 16];
    private int messages;
    private int editionOne;
    private int moreRefused;

    /// <exception cref="BadInputException">No field of the file can be read; says why.</exception>
    public void Into(List<GribField> fields, List<Fault> refused)
    {
        var (before, reasons) = (fields.Count, new List<string>());
        for (var at = Next(0); at >= 0; at = Next(at))
        {
            cancel.ThrowIfCancellationRequested();
            at = Message(at, fields, reasons);
            passed(at);
        }
        if (fields.Count == before) throw new BadInputException(file.Name, WhyNone(reasons));
        if (moreRefused > 0) reasons.Add($"There were {moreRefused} more such messages.");
        refused.AddRange(reasons.Select(reason => new Fault(file.Name, reason)));
    }

    private string WhyNone(List<string> reasons) => reasons switch
    {
        [] when editionOne > 0 => $"Has {editionOne} messages of GRIB edition 1 and none of edition 2. Take edition 2, or turn it into that ('grib_set -s edition=2', 'cdo -f grb2 copy').",
        [] when stream.Length == 0 => $"Is empty. {Right}",
        [] => $"Has no GRIB message in it. {Right}",
        [var only] => only,
        [var first, ..] => $"{first} And {reasons.Count - 1 + moreRefused} more messages cannot be read either.",
    };

    /// <returns>Where to look on.</returns>
    private long Message(long at, List<GribField> fields, List<string> reasons)
    {
        var head = new byte[HeadOctets];
        stream.Position = at;
        var read = stream.ReadAtLeast(head, HeadOctets, throwOnEndOfStream: false);
        if (read >= 8 && head[7] == 1) return EditionOne(at, head);
        if (read < 8 || head[7] != 2) return at + 4;
        messages++;
        if (read < HeadOctets)
        {
            Refuse(reasons, "The file ends within its head.");
            return at + 4;
        }
        var length = BinaryPrimitives.ReadUInt64BigEndian(head.AsSpan(8));
        if (length < HeadOctets + 4 || length > (ulong)(stream.Length - at))
        {
            Refuse(reasons, $"It is said to have {length} octets; {stream.Length - at} are left in the file. It is cut off or damaged: load it again.");
            return at + 4;
        }
        var end = at + (long)length;
        if (!EndsAt(end))
        {
            Refuse(reasons, "Its end mark 7777 is missing: it is cut off or damaged. Load it again.");
            return at + 4;
        }
        Sections(at, end, head[6], fields, reasons);
        return end;
    }

    private void Sections(long at, long end, int discipline, List<GribField> fields, List<string> reasons)
    {
        var message = new GribMessage(file, stream, messages, grids);
        try
        {
            message.Read(discipline, at, end);
        }
        catch (GribDamage damage)
        {
            Refuse(reasons, damage.Message);
        }
        foreach (var reason in message.Refused) Refuse(reasons, reason);
        fields.AddRange(message.Fields);
        if (fields.Count > GribSet.MostFields) throw new BadInputException(file.Name, $"Brings more than {GribSet.MostFields} fields together. Choose the hours and levels that you need.");
    }

    private long EditionOne(long at, byte[] head)
    {
        var end = at + ((head[4] << 16) | (head[5] << 8) | head[6]);
        if (end < at + 8 || end > stream.Length || !EndsAt(end)) return at + 4;
        editionOne++;
        return end;
    }

    private bool EndsAt(long end)
    {
        Span<byte> mark = stackalloc byte[4];
        stream.Position = end - 4;
        stream.ReadExactly(mark);
        return mark.SequenceEqual("7777"u8);
    }

    private void Refuse(List<string> reasons, string reason)
    {
        if (reasons.Count < MostRemarks) reasons.Add($"Message {messages}: {reason}");
        else moreRefused++;
    }

    /// <summary>Where the next 'GRIB' begins; −1 where there is none. Mostly it is right there, so that little is read first.</summary>
    private long Next(long from)
    {
        for (var wanted = FirstLook; from < stream.Length; wanted = window.Length)
        {
            cancel.ThrowIfCancellationRequested();
            stream.Position = from;
            var read = stream.ReadAtLeast(window.AsSpan(0, wanted), wanted, throwOnEndOfStream: false);
            var found = window.AsSpan(0, read).IndexOf("GRIB"u8);
            if (found >= 0) return from + found;
            if (read < wanted) return -1;
            from += read - 3;
        }
        return -1;
    }
}
