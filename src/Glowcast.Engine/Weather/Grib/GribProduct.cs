using NodaTime;

namespace Glowcast.Engine.Weather;

/// <summary>What a field is of, and for when (GRIB 2, sections 1 and 4).</summary>
/// <param name="Centre">Code of the service that made it: 7 is NCEP, 98 ECMWF.</param>
/// <param name="Template">Number of the product definition template: 0 for 4.0.</param>
/// <param name="Reference">When the run begins.</param>
/// <param name="Start">What it is valid for, or where its interval begins.</param>
/// <param name="End">Where its interval ends; the same as <paramref name="Start"/> for an instant.</param>
public sealed record GribProduct(
    int Centre, int Discipline, int Category, int Number, int Template, GribLevel Level, Instant Reference, Instant Start, Instant End)
{
    /// <summary>Of an ensemble: which member; null for a field of one run.</summary>
    public int? Member { get; init; }

    /// <summary>Mean, spread or probability over an ensemble, and no state of the air by itself.</summary>
    public bool IsOfManyRuns { get; init; }

    /// <summary>How an interval was worked up (code table 4.10): 0 mean, 1 sum, 2 greatest …; null for an instant.</summary>
    public int? Process { get; init; }

    public bool IsInstant => Process is null;

    /// <summary>Discipline, category and number in one, to tell fields apart.</summary>
    internal (int Discipline, int Category, int Number) Parameter => (Discipline, Category, Number);
}
