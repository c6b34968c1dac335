using Glowcast.Engine.Measures;
using NodaTime;

namespace Glowcast.Engine.Forecast;

/// <summary>The set laid over the light.</summary>
/// <param name="Verdict">In one word: the bounds of the chance, from the start chosen.</param>
/// <param name="Margin">From the first possible start to the last; negative by how much the set is too long. Null without a window.</param>
/// <param name="EarliestStart">The first from which every exposure of every set has its light, by the best estimate; of the marker frame of
/// the first set; null where there is none.</param>
/// <param name="LatestStart">The last.</param>
/// <param name="BestStart">The first of them; where there is none, the start that loses least.</param>
/// <param name="FirstProblem">From the start chosen, by the best estimate; null where every exposure has its light.</param>
/// <param name="Uncertainty">Of first and last start together, one standard deviation.</param>
public sealed record SetFit(
    Verdict Verdict, Duration? Margin, Instant? EarliestStart, Instant? LatestStart, Instant? BestStart,
    FailingFrame? FirstProblem, Duration Uncertainty)
{
    private readonly Lazy<IReadOnlyList<JudgedStart>> starts = new([]);
    private readonly Lazy<IReadOnlyList<FitReason>> reasons = new([]);
    private readonly JudgedSets? judged;

    public static SetFit NoLight { get; } = new(Verdict.NoLight, null, null, null, null, null, Duration.Zero);

    /// <summary>That every exposure has its light, from the start chosen; 0 without a window.</summary>
    public double Chance { get; init; }

    /// <summary>The chance is held down, because ground past the edge of the grid could matter.</summary>
    public bool IsCapped { get; init; }

    /// <summary>The start that all of this is about: the plan's, or the one advised; where none is possible, the one that loses least.
    /// Null without a window.</summary>
    public Instant? ChosenStart { get; init; }

    public StartReason ChosenBecause { get; init; }

    /// <summary>How many exposures have their light from the start chosen, by the best estimate.</summary>
    public int InLight { get; init; }

    /// <summary>The ridge can be told from the sky behind it.</summary>
    public bool IsRidgeSeen => Judged?.Judge.Window.IsRidgeSeen ?? true;

    /// <summary>Of all sets.</summary>
    public int Exposures => Judged?.Sets.Shots.Count ?? 0;

    /// <summary>Before and after the start chosen; null without a window, and where a frame never has light.</summary>
    public StartRoom? Room { get; init; }

    /// <summary>The start advised, whatever the plan says; null where none is possible.</summary>
    public Instant? RecommendedStart { get; init; }

    public StartReason RecommendedBecause { get; init; }

    /// <summary>From arriving at the spot to being ready for the first marker frame.</summary>
    public Duration SetUp { get; init; }

    /// <summary>When to be at the spot for the start chosen; null where it does not fit.</summary>
    public Instant? OnSiteBy => IsPossible ? ChosenStart - SetUp : null;

    /// <summary>When to be at the spot for the earliest start; null where it does not fit.</summary>
    public Instant? OnSiteForEarliest => EarliestStart - SetUp;

    /// <summary>Of the brightness, from the start chosen; null without a window.</summary>
    public ExposureDrift? Drift { get; init; }

    /// <summary>What comes of every start that shares time with the window; the first, the last, the chosen and the advised are among them.
    /// Empty without a window.</summary>
    public IReadOnlyList<JudgedStart> Starts => starts.Value;

    /// <summary>Why it fits no better.</summary>
    public IReadOnlyList<FitReason> Reasons => reasons.Value;

    /// <summary>By how much a start may still slip; negative past the latest one.</summary>
    /// <exception cref="InvalidOperationException">There is no possible start.</exception>
    public Duration MarginFrom(Instant start) =>
        (LatestStart ?? throw new InvalidOperationException("A set that does not fit has no latest start.")) - start;

    public bool IsPossible => Verdict is Verdict.Fits or Verdict.Tight;

    /// <summary>Null without a window.</summary>
    internal JudgedSets? Judged
    {
        get => judged;
        init
        {
            judged = value;
            reasons = new Lazy<IReadOnlyList<FitReason>>(() => FitReasons.Of(this));
            starts = new Lazy<IReadOnlyList<JudgedStart>>(() => value?.Table(Named()) ?? []);
        }
    }

    // As they are written: whole seconds.
    private IEnumerable<Instant> Named() =>
        new[] { EarliestStart, LatestStart, RecommendedStart, ChosenStart }.OfType<Instant>().Select(Rounded.ToSeconds);
}
