using System.Globalization;
using System.IO.Compression;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Weather;

/// <summary>How often a lookout of some height stood above a deck, by month and hour, in the archive of a station (docs/model.md, W18).</summary>
/// <param name="Top">Height of the lookout.</param>
/// <param name="Place">Null where the archive does not say.</param>
public sealed record StationClimate(string Station, GeoPoint? Place, Length Top, int FirstYear, int LastYear, IReadOnlyList<DeckShare> Months)
{
    /// <summary>Instruments change: older flights tell less (common practice).</summary>
    public const int UsualYears = 20;

    private const long MostCharacters = 4L << 30;

    private static readonly int[] Hours = [0, 12];

    /// <summary>Reads an archive, as text or zipped.</summary>
    /// <param name="name">What the user knows it by, for faults.</param>
    /// <param name="years">How many of the last years count.</param>
    /// <param name="elevation">Of the station, from its list; null to go by the flights themselves.</param>
    /// <exception cref="BadInputException">It is no such archive, or damaged.</exception>
    public static StationClimate Read(Stream stream, string name, Length top, int years, Length? elevation, CancellationToken cancel)
    {
        using var text = Opened(stream, name);
        var judged = new Dictionary<(int Year, int Month, int Hour), (int All, int Usable, int Below)>();
        var (station, place) = ("", (GeoPoint?)null);
        try
        {
            foreach (var flight in IgraReader.Flights(text, name))
            {
                cancel.ThrowIfCancellationRequested();
                (station, place) = (flight.Station, flight.Place ?? place);
                if (flight.Hour is not { } hour || !Hours.Contains(hour)) continue;
                var (key, counted) = ((flight.Date.Year, flight.Date.Month, hour), Judge(flight, top, elevation));
                var before = judged.GetValueOrDefault(key);
                judged[key] = (before.All + 1, before.Usable + counted.Usable, before.Below + counted.Below);
            }
        }
        catch (InvalidDataException)
        {
            throw new BadInputException(name, "Its zip is damaged: load it again.");
        }
        if (judged.Count == 0) throw new BadInputException(name, "Has no flight at 00 or 12 UTC; give a station archive of IGRA 2.");
        var last = judged.Keys.Max(key => key.Year);
        var counted20 = judged.Where(entry => entry.Key.Year > last - years).ToList();
        return new StationClimate(station, place, top, counted20.Min(entry => entry.Key.Year), last,
        [
            .. from entry in counted20
               group entry.Value by (entry.Key.Month, entry.Key.Hour) into month
               orderby month.Key
               select new DeckShare(month.Key.Month, month.Key.Hour, month.Sum(value => value.All), month.Sum(value => value.Usable), month.Sum(value => value.Below)),
        ]);
    }

    /// <summary>The elevation of a station in the archive's list of stations; null where it is not in it.</summary>
    public static Length? ElevationIn(TextReader list, string station)
    {
        ArgumentNullException.ThrowIfNull(list);
        while (list.ReadLine() is { } line)
        {
            if (line.Length < 37 || !line.StartsWith(station, StringComparison.Ordinal)) continue;
            return double.TryParse(line.AsSpan(31, 6), NumberStyles.Float, CultureInfo.InvariantCulture, out var metres) && metres > -500 ? Length.FromMetres(metres) : null;
        }
        return null;
    }

    /// <summary>The station that an archive is of, by its first flight; null where there is none.</summary>
    /// <exception cref="BadInputException">It is no such archive.</exception>
    public static string? StationOf(Stream stream)
    {
        using var text = Opened(stream, "archive");
        return IgraReader.Flights(text, "archive").FirstOrDefault()?.Station;
    }

    private static (int Usable, int Below) Judge(IgraFlight flight, Length top, Length? elevation)
    {
        var levels = flight.WithHeights(elevation?.Metres);
        if (!flight.IsUsable(levels)) return (0, 0);
        try
        {
            var diagnosis = CloudDiagnosis.Of(Profile.Of(flight.ToSounding(elevation?.Metres), flight.Station));
            return (1, diagnosis.LookoutAt(top).Verdict == LookoutVerdict.Above ? 1 : 0);
        }
        catch (BadInputException)
        {
            return (0, 0);
        }
    }

    private static StreamReader Opened(Stream stream, string name)
    {
        var isZip = stream.ReadByte() == 'P' && stream.ReadByte() == 'K';
        stream.Position = 0;
        if (!isZip) return new StreamReader(stream, leaveOpen: true);
        try
        {
            var archive = new ZipArchive(stream, ZipArchiveMode.Read, leaveOpen: true);
            if (archive.Entries.Count != 1) throw new BadInputException(name, $"Is a zip of {archive.Entries.Count} files; a station archive is one text in a zip.");
            if (archive.Entries[0].Length > MostCharacters) throw new BadInputException(name, "Holds more text than any station archive.");
            return new StreamReader(archive.Entries[0].Open());
        }
        catch (InvalidDataException)
        {
            throw new BadInputException(name, "Begins like a zip and is none: load it again.");
        }
    }
}

/// <summary>Decks under a height in one month at one hour.</summary>
/// <param name="Soundings">All flights.</param>
/// <param name="Usable">Those that could be judged.</param>
/// <param name="Below">Those in which a lookout of the height stood above the deck.</param>
public sealed record DeckShare(int Month, int Hour, int Soundings, int Usable, int Below)
{
    /// <summary>Fewer flights do not make a share worth naming (common practice).</summary>
    public const int FewestUsable = 50;

    public WilsonInterval Interval => WilsonInterval.Of(Below, Usable);

    public bool IsEnough => Usable >= FewestUsable;
}
