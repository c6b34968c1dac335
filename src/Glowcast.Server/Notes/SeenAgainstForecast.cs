using System.Globalization;

namespace Glowcast.Server.Notes;

/// <summary>What was seen less what had been forecast, over many notes.</summary>
/// <param name="Notes">How many there are.</param>
/// <param name="FirstLightS">Positive where light came later than forecast.</param>
/// <param name="LastLightS">Positive where it stayed longer.</param>
/// <param name="DeckTopM">Positive where the cloud stood higher.</param>
public sealed record SeenAgainstForecast(int Notes, Deviation? FirstLightS, Deviation? LastLightS, Deviation? DeckTopM, SetTally Sets)
{
    public static SeenAgainstForecast Of(IReadOnlyCollection<FieldNote> notes) => new(
        notes.Count,
        Deviation.Of(notes.Select(note => Seconds(note.Seen.FirstLight, note.Expected.FirstLight))),
        Deviation.Of(notes.Select(note => Seconds(note.Seen.LastLight, note.Expected.LastLight))),
        Deviation.Of(notes.Select(note => note.Seen.DeckTopM - note.Expected.DeckTopM)),
        SetTally.Of(notes));

    private static double? Seconds(string? seen, string? expected) =>
        seen is null || expected is null ? null : (At(seen) - At(expected)).TotalSeconds;

    private static DateTimeOffset At(string utc) => DateTimeOffset.Parse(utc, CultureInfo.InvariantCulture);
}

/// <summary>How far off, and how unevenly.</summary>
/// <param name="Count">Of the notes that tell both.</param>
/// <param name="Bias">The mean difference.</param>
/// <param name="Spread">The standard deviation of a single one about it; null for a single one.</param>
public sealed record Deviation(int Count, double Bias, double? Spread)
{
    /// <summary>Null where there is no difference at all.</summary>
    public static Deviation? Of(IEnumerable<double?> differences)
    {
        var known = differences.OfType<double>().ToList();
        if (known.Count == 0) return null;
        var mean = known.Average();
        var squares = known.Sum(difference => (difference - mean) * (difference - mean));
        return new Deviation(known.Count, mean, known.Count > 1 ? Math.Sqrt(squares / (known.Count - 1)) : null);
    }
}

/// <summary>How sets went; of those that were to fit by their forecast, how many came home whole.</summary>
public sealed record SetTally(int Whole, int Broken, int NotShot, int Fitting, int FittingAndWhole)
{
    private const string Fits = "fits";

    public static SetTally Of(IReadOnlyCollection<FieldNote> notes)
    {
        var shot = notes.Where(note => note.Seen.Set is SetOutcome.Whole or SetOutcome.Broken && note.Expected.Verdict == Fits).ToList();
        return new SetTally(
            Count(SetOutcome.Whole), Count(SetOutcome.Broken), Count(SetOutcome.NotShot), shot.Count, shot.Count(note => note.Seen.Set == SetOutcome.Whole));

        int Count(SetOutcome outcome) => notes.Count(note => note.Seen.Set == outcome);
    }
}

/// <summary>What field notes say of forecasts: of one lookout, and of all.</summary>
/// <param name="Lookout">Null where there is no note of it.</param>
public sealed record FieldNotesAnswer(SeenAgainstForecast? Lookout, SeenAgainstForecast Everywhere);
